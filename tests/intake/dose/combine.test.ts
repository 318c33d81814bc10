import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { findingRow, stops } from '../../../src/findings/finding.js';
import { doseLines } from '../../../src/intake/dose/lines.js';
import { parseCaseData } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { examplesFolder } from '../../support/examples.js';
import { readAll } from './objects.js';

const codesOf = (findings: readonly { code: string }[]) => findings.map(({ code }) => code);

describe('reports that are given together', () => {
  const added = async (...names: string[]) => {
    const { summary, contribution } = await readAll(names);
    return {
      product: summary.figures.kermaAreaProduct?.value,
      codes: codesOf(summary.findings),
      stopped: summary.findings.some(stops),
      given: contribution.values.length,
    };
  };

  it.each([
    // By hand: the later report holds the events of the earlier one, so that its total alone counts.
    [['sent-early', 'sent-again'], '45.2310', ['dose-report.superseded']],
    [['sent-again', 'sent-early'], '45.2310', ['dose-report.superseded']],
    [['single', 'single'], '45.2310', ['dose-report.same-twice']],
    // Other events of the same system, and another system: 45.231 + 8.
    [['single', 'second-part'], '53.2310', ['dose-report.added']],
    [['single', 'second-system'], undefined, undefined],
    [['single', 'ct'], '45.2310', ['dose-report.added']],
  ])('%j', async (names, product, codes) => {
    const found = await added(...names);
    expect(found.stopped).toBe(false);
    if (codes) expect([found.product, found.codes]).toEqual([product, codes]);
    else expect(found.product).toBe('53.2310');
  });

  it.each([
    [['single', 'overlapping'], 'dose-report.overlap'],
    [['single', 'other-patient'], 'dose-report.two-patients'],
  ])('%j: nothing is added', async (names, code) => {
    expect(await added(...names)).toEqual({ product: undefined, codes: [code], stopped: true, given: 0 });
  });

  it('adds the exact values of several systems, whatever their order', async () => {
    const one = await readAll(['ct', 'single', 'second-system']);
    const other = await readAll(['second-system', 'ct', 'single']);
    expect(one.summary.figures).toEqual(other.summary.figures);
    expect(one.summary.figures).toMatchObject({
      ...{ airKerma: { value: '186.0' }, frames: { value: '15' }, doseLengthProduct: { value: '386.00' } },
    });
  });
});

/** The example of a drainage with what a test wants of it. */
function recordWith(change: (data: Record<string, unknown>) => void): CaseRecord {
  const data = parse(readFileSync(join(examplesFolder, 'biliary-drainage-and-stent.yaml'), 'utf8')) as Record<
    string,
    unknown
  >;
  data['patient'] = {
    identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '00481516' }],
    ...{ name: 'Vela Quintanar', birthDate: '1957-08-02', sex: 'female' },
  };
  Object.assign(data['case'] as object, { accession: 'A-77120' });
  delete data['images'];
  change(data);
  const { record, findings } = parseCaseData(data);
  if (!record) throw new Error(findings.map(one => findingRow(one).message).join('\n'));
  return record;
}

const withRadiation = (radiation: unknown) =>
  recordWith(data => {
    data['radiation'] = radiation;
  });

describe('held against a record', () => {
  const compared = async (record: CaseRecord, name = 'single') => {
    const { compared: found } = await readAll([name], record);
    return found.filter(({ severity }) => severity !== 'information');
  };

  it.each([
    ...['45.2 Gy·cm2', '45 Gy·cm2', '45.23 Gy·cm2', '45231 mGy·cm2', '4523 µGy·m2', '0.0045231 Gy·m2'],
    // Cut off and not rounded, as some consoles do.
    '4523.1 cGy·cm2',
  ])('kerma-area product typed as %s is the same', async typed => {
    expect(await compared(withRadiation({ kermaAreaProduct: typed }))).toEqual([]);
  });

  it.each([
    ['45.2 mGy·cm2', 'dose-report.other-unit', 'Gy·cm²'],
    ['4523 Gy·cm2', 'dose-report.other-unit', 'cGy·cm²'],
    ['45231 Gy·cm2', 'dose-report.other-unit', 'mGy·cm²'],
    ['452.3 Gy·cm2', 'dose-report.other-unit', 'dGy·cm²'],
  ])('%s: the number is right in another unit', async (typed, code, unit) => {
    const [found, ...more] = await compared(withRadiation({ kermaAreaProduct: typed }));
    expect([found?.code, found?.params['unit'], more]).toEqual([code, unit, []]);
  });

  it.each([
    [{ airKerma: '1560 mGy' }, 'dose-report.factor'],
    [{ airKerma: '15.6 mGy' }, 'dose-report.factor'],
    [{ airKerma: '156 Gy' }, 'dose-report.other-unit'],
    [{ kermaAreaProduct: '44.9 Gy·cm2' }, 'dose-report.differs'],
    [{ fluoroscopyTime: '154.5 min' }, 'dose-report.other-unit'],
    [{ fluoroscopyTime: '5:24' }, 'dose-report.differs'],
    [{ frames: 21 }, 'dose-report.differs'],
    ['none', 'dose-report.said-none'],
  ])('%j', async (radiation, code) => {
    expect(codesOf(await compared(withRadiation(radiation)))).toEqual([code]);
  });

  it.each([
    [{ airKerma: '0.156 Gy' }],
    [{ fluoroscopyTime: '2:34' }],
    [{ fluoroscopyTime: '2:35' }],
    [{ fluoroscopyTime: '2.6 min' }],
    [{ frames: 12 }],
    [{ kermaAreaProduct: '< 50 Gy·cm2' }],
  ])('%j is the same', async radiation => {
    expect(codesOf(await compared(withRadiation(radiation)))).toEqual([]);
  });

  it('holds back the report of another patient and shows both sides', async () => {
    const record = withRadiation({ kermaAreaProduct: '45.2 Gy·cm2' });
    const { compared: found, contribution } = await readAll(['other-patient'], record);
    expect(codesOf(found)).toContain('dose-report.other-patient');
    expect(found.find(({ path }) => path === 'patient.birthDate')?.params).toMatchObject({
      ...{ found: '1983-01-11', recorded: '1957-08-02' },
    });
    expect(contribution.values).toEqual([]);
  });

  it.each([
    [{ birthDate: '1958-08-02' }, 'dose-report.other-patient'],
    [{ name: 'Vela Ferreiro' }, 'dose-report.patient-differs'],
    [{ sex: 'male' }, 'dose-report.patient-differs'],
    [
      { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '7' }] },
      'dose-report.patient-differs',
    ],
    [
      { identifiers: [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: '7' }], name: 'Duarte Ferreiro' },
      'dose-report.other-patient',
    ],
    [{ name: 'QUINTANAR, Vela' }, undefined],
    [{ birthDate: '1957' }, undefined],
  ])('%j', async (change, code) => {
    const record = recordWith(data => {
      Object.assign(data['patient'] as object, change);
      data['radiation'] = { airKerma: '156 mGy' };
    });
    expect(new Set(codesOf(await compared(record)))).toEqual(new Set(code === undefined ? [] : [code]));
  });

  it.each([
    ['山田 太郎', 'japanese'],
    // A console without umlauts, as the patient checks of a destination compare names.
    ['Dr Zoe Mueller Nunez', 'latin1'],
  ])('knows a name by its other writing: %s', async (name, object) => {
    const record = recordWith(data => {
      Object.assign(data['patient'] as object, { name });
      data['radiation'] = { airKerma: '156 mGy' };
    });
    expect(codesOf(await compared(record, object))).toEqual([]);
  });

  it('holds back a report under another accession, unless the study is the record’s', async () => {
    const other = (images?: unknown) =>
      recordWith(data => {
        Object.assign(data['case'] as object, { accession: 'A-1' });
        data['radiation'] = { airKerma: '156 mGy' };
        if (images) data['images'] = images;
      });
    expect(codesOf(await compared(other()))).toEqual(['dose-report.other-case']);
    expect(await compared(other([{ study: '1.2.826.0.1.3680043.10.99999.1.193' }]))).toEqual([]);
  });
});

describe('what is given to a record', () => {
  it('is read by the record as it stands, and then differs in nothing', async () => {
    const { contribution } = await readAll(['ct', 'single', 'second-system']);
    const lines = parse(doseLines(contribution).join('\n')) as { radiation: unknown };
    const { compared } = await readAll(['ct', 'single', 'second-system'], withRadiation(lines.radiation));
    expect(codesOf(compared)).toEqual(['dose-report.not-recorded']); // The mean of two scans, which is proposed only.
  });

  it('says whom and which study it is about, and when it was made', async () => {
    expect((await readAll(['biplane'])).contribution).toMatchObject({
      ...{ from: 'dose report', at: '2024-03-14T09:50:12+01:00', by: 'biplane.dcm' },
      about: {
        ...{ identifiers: [{ value: '00481516' }], name: 'Vela Quintanar', birthDate: '1957-08-02' },
        ...{ sex: 'female', accession: 'A-77120', study: '1.2.826.0.1.3680043.10.99999.1.193' },
      },
    });
    // Without an offset in the file it is not known when: the time of reading stands in.
    expect((await readAll(['single'])).contribution.at).toBe('2024-03-14T12:00:00Z');
  });

  it('proposes the study and the mean of scans, and sets what was stated', async () => {
    const { values } = (await readAll(['ct'])).contribution;
    expect(values.map(({ path, as, value }) => [path.join('.'), as, value])).toEqual([
      ['radiation.doseLengthProduct', 'set', '386.00 mGy·cm'],
      // By hand: (8.41 + 11.02) / 2 = 9.715, rounded.
      ['radiation.ctDoseIndex', 'propose', '9.72 mGy'],
      ['radiation.system', 'set', 'Larkfield Imaging Ring 64, CT-1'],
      ['images', 'propose-entry', { study: '1.2.826.0.1.3680043.10.99999.1.193' }],
    ]);
  });
});
