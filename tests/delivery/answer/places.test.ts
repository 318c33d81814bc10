import { describe, expect, it } from 'vitest';
import { issuesOf } from '../../../src/delivery/answer/issues.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import { submissionText } from '../samples.js';

/*
 * Places in an OperationOutcome: `expression` is FHIRPath, which counts from 0, and `location` an XPath, which counts
 * from 1 (https://hl7.org/fhir/R4/operationoutcome-definitions.html#OperationOutcome.issue.location). What else
 * servers write there: seen on HAPI FHIR, and common practice, no source.
 */

const sent = readSubmission(submissionText())?.entries ?? [];

const placed = (issue: { expression?: unknown; location?: unknown }, carried = sent, entry?: number) =>
  issuesOf(
    { resourceType: 'OperationOutcome', issue: [{ severity: 'error', code: 'value', ...(issue as object) }] },
    carried,
    entry,
  ).map(({ severity: _s, code: _c, text: _t, ...place }) => place)[0];

const rows: [path: string, place: object][] = [
  ['Bundle.entry[1].resource.status', { entry: 1, elementPath: 'Procedure.status' }],
  ['Bundle.entry[1].resource.ofType(Procedure).status', { entry: 1, elementPath: 'Procedure.status' }],
  ['Bundle.entry[1].resource/*Procedure/x*/.status', { entry: 1, elementPath: 'Procedure.status' }],
  [
    'Bundle.entry[1].resource/*Procedure/x*/.contained[0]/*Device/y*/.status',
    { entry: 1, elementPath: 'Procedure.contained[0].status' },
  ],
  ['Bundle.entry[1].Procedure.performer[0].actor', { entry: 1, elementPath: 'Procedure.performer[0].actor' }],
  [
    'Bundle.entry[3].resource.value.ofType(Quantity).unit',
    { entry: 3, elementPath: 'Observation.value.ofType(Quantity).unit' },
  ],
  ['Bundle.entry[3].resource', { entry: 3 }],
  ['Bundle.entry[3]', { entry: 3 }],
  ['Bundle.entry[4].resource.status', {}],
  ['Bundle.entry[12].resource.status', {}],
  ['Bundle.entry.resource.status', {}],
  ['(Bundle.entry[1].resource.status)', {}],
  ['Bundle.type', {}],
  ['Bundle', {}],
  ['Procedure.status', { entry: 1, elementPath: 'Procedure.status' }],
  ['Procedure', { entry: 1 }],
  ['Encounter.status', {}],
  ['the Procedure.status', {}],
  ['Procedure 1', {}],
  ['Line 4, column 3', {}],
  ['', {}],
  ['/f:Bundle/f:entry[4]/f:resource/f:Observation/f:status', { entry: 3, elementPath: 'Observation.status' }],
  ['/f:Bundle/f:entry[0]/f:resource/f:Observation/f:status', {}],
  [
    '/f:Bundle/f:entry[2]/f:resource/f:Procedure/f:performer[10]/f:actor[1]',
    { entry: 1, elementPath: 'Procedure.performer[9].actor[0]' },
  ],
  ['/f:Procedure/f:performer[1]/f:actor', { entry: 1, elementPath: 'Procedure.performer[0].actor' }],
  ['/Procedure/status', {}],
];

describe('the place that a server names', () => {
  it.each(rows)('%s', (path, place) => {
    expect(placed({ expression: [path] })).toStrictEqual(place);
    expect(placed({ location: [path] })).toStrictEqual(place);
  });

  it('is the first that leads anywhere, expressions before locations', () => {
    const location = ['/f:Bundle/f:entry[1]/f:resource/f:Patient/f:name'];
    const nowhere = ['Bundle.type', null, 7, { a: 'b' }];
    expect(placed({ expression: nowhere, location })).toEqual({ entry: 0, elementPath: 'Patient.name' });
    expect(placed({ expression: [...nowhere, 'Device.lotNumber'], location })).toEqual({
      entry: 2,
      elementPath: 'Device.lotNumber',
    });
    expect(placed({ expression: 'Device.lotNumber', location: 'Device.lotNumber' })).toEqual({});
  });

  it('tells nothing by a type of which several were sent', () => {
    const [, procedure] = sent;
    if (!procedure) throw new Error('no procedure in the sample');
    const two = [...sent, { ...procedure, index: 4 }];
    expect(placed({ expression: ['Procedure.status'] }, two)).toEqual({});
    expect(placed({ expression: ['Procedure.status', 'Bundle.entry[4].resource.status'] }, two)).toEqual({
      entry: 4,
      elementPath: 'Procedure.status',
    });
  });

  it('counts by what one request carried, and leads to the submission', () => {
    const carried = sent.slice(2);
    expect(placed({ expression: ['Bundle.entry[1].resource.status'] }, carried)).toEqual({
      entry: 3,
      elementPath: 'Observation.status',
    });
    expect(placed({ expression: ['Procedure.status'] }, carried)).toEqual({});
    const [procedure] = sent.slice(1);
    if (!procedure) throw new Error('no procedure in the sample');
    const many = Array.from({ length: 13 }, (_, index) => ({ ...procedure, index }));
    expect(placed({ expression: ['Bundle.entry[12].resource.status'] }, many)).toEqual({
      entry: 12,
      elementPath: 'Procedure.status',
    });
  });

  it('is within the entry that an outcome came with', () => {
    const within = (path: string, entry = 3) => placed({ expression: [path] }, sent, entry);
    expect(within('Observation.status')).toEqual({ entry: 3, elementPath: 'Observation.status' });
    expect(within('Resource.status')).toEqual({ entry: 3, elementPath: 'Observation.status' });
    expect(within('Bundle.entry[0].resource.status')).toEqual({
      entry: 3,
      elementPath: 'Observation.status',
    });
    expect(within('Bundle.type')).toEqual({ entry: 3 });
    expect(within('somewhere')).toEqual({ entry: 3 });
    expect(within('Observation.status', 9)).toEqual({ entry: 9 });
    expect(placed({}, sent, 3)).toEqual({ entry: 3 });
    expect(placed({}, sent, 0)).toEqual({ entry: 0 });
  });

  it('is read at once, however long a hostile server makes it', () => {
    expect(placed({ expression: ['/*a'.repeat(500_000), `Procedure${'['.repeat(500_000)}`] })).toEqual({});
  });
});
