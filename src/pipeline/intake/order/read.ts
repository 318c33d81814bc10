import { type ExactObject, listAt, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import { type Finding, finding } from '../../../findings/finding.js';
import type { About, Contribution, GivenValue } from '../../../intake/contribution.js';
import type { OrderHeld } from './fetch.js';
import { allergyValues, conditionValues, drugValues } from './history.js';
import { insideValues } from './inside.js';
import { laboratoryValues, measurementValues } from './labs.js';
import { codeAt, codings, conceptAt, madeAt, nameAt, numbersAt, timeAt } from './resource.js';
import { proposed, set, type Taken } from './taken.js';

/** What is known of the asking. */
export interface OrderAsked {
  readonly destination: string;
  readonly number: string;
  /** When it was asked, ISO 8601 with offset. */
  readonly at: string;
}

/**
 * What a record system holds about an order, as values of a record. What is not there is left open: an empty list is no
 * `none`, an active prescription no last dose, and what was refuted or entered in error is passed over.
 */
export function orderContribution(held: OrderHeld, asked: OrderAsked): Contribution {
  const { order, patient, encounter } = held;
  const parts: readonly Taken[] = [
    orderValues(held, asked.number),
    patientValues(patient),
    allergyValues(held.allergies),
    conditionValues(held.conditions),
    drugValues(held.medications),
    laboratoryValues(held.laboratory),
    measurementValues(held.measurements),
    insideValues(held.uses, held.devices),
    reportValues(held.reports),
  ];
  const findings: readonly Finding[] = [
    ...calledOff('order', textAt(order, 'status'), asked),
    ...calledOff('encounter', encounter && textAt(encounter, 'status'), asked),
    ...parts.flatMap(part => part.findings ?? []),
  ];
  return {
    from: 'order',
    at: asked.at,
    by: `${asked.number}, ${asked.destination}`,
    about: aboutOf(patient, order),
    values: parts.flatMap(({ values }) => values),
    findings,
  };
}

function calledOff(what: string, status: string | undefined, { number, destination }: OrderAsked): Finding[] {
  if (status === undefined || !['revoked', 'cancelled', 'completed', 'on-hold'].includes(status)) return [];
  return [finding('intake.order-called-off', `case.${what}`, { what, number, status, destination })];
}

const accessionOf = (order: ExactObject): string | undefined =>
  numbersAt(order).find(({ kind }) => kind === 'ACSN')?.value ??
  textAt(objectAt(order, 'requisition'), 'value');

function aboutOf(patient: ExactObject, order: ExactObject): About {
  const name = nameAt(patient);
  const birthDate = textAt(patient, 'birthDate');
  const sex = textAt(patient, 'gender');
  const accession = accessionOf(order);
  return {
    identifiers: numbersAt(patient).map(({ system, value }) => ({
      value,
      ...(system !== undefined && { system }),
    })),
    ...(name !== undefined && { name }),
    ...(birthDate !== undefined && { birthDate }),
    ...(sex !== undefined && { sex }),
    ...(accession !== undefined && { accession }),
  };
}

/** Urgency by FHIR's request priority. Source: http://hl7.org/fhir/R4/valueset-request-priority.html; the pairing is ours. */
const URGENCIES: ReadonlyMap<string | undefined, string> = new Map([
  ['routine', 'elective'],
  ['urgent', 'urgent'],
  ['asap', 'urgent'],
  ['stat', 'emergency'],
]);

function orderValues({ order, encounter, requester }: OrderHeld, number: string): Taken {
  const values: GivenValue[] = [];
  const wanted = number.includes('|') ? number.slice(number.lastIndexOf('|') + 1) : number;
  const numbered = numbersAt(order).filter(({ system, kind }) => system !== undefined && kind !== 'ACSN');
  const own = numbered.find(({ value }) => value === wanted) ?? numbered[0];
  if (own) values.push(...identifierValues(['case', 'order'], own));
  // A department without numbers of its own calls the case by that of its order.
  values.push(...proposed(['case', 'id'], own?.value ?? wanted));
  const [visit] = encounter ? numbersAt(encounter).filter(({ system }) => system !== undefined) : [];
  if (visit) values.push(...identifierValues(['case', 'encounter'], visit));
  values.push(
    ...set(['case', 'accession'], accessionOf(order)),
    ...set(['case', 'urgency'], URGENCIES.get(textAt(order, 'priority'))),
    ...set(['planned'], conceptAt(order, 'code')),
  );
  const reasons = listAt(order, 'reasonCode').flatMap(reason => conceptAt({ reason }, 'reason') ?? []);
  if (reasons.length > 0) {
    values.push(...set(['indication', 'text'], reasons.join('; ')));
    values.push({ path: ['indication', 'conditions'], value: reasons, as: 'propose' });
  }
  const notes = listAt(order, 'note').flatMap(
    note => textAt(note, 'text')?.replace(/\s+/g, ' ').trim() || [],
  );
  values.push(...proposed(['indication', 'question'], notes.join(' ') || undefined));
  const referrer = (requester && nameAt(requester, true)) ?? textAt(objectAt(order, 'requester'), 'display');
  if (referrer !== undefined)
    values.push({ path: ['team'], value: { key: 'referrer', role: 'referrer', name: referrer }, as: 'add' });
  return { values };
}

const identifierValues = (
  path: readonly string[],
  { system = '', value }: { readonly system?: string; readonly value: string },
): GivenValue[] => [{ path, value: { system, value }, as: 'set' }];

function patientValues(patient: ExactObject): Taken {
  const identifiers = numbersAt(patient).flatMap(({ system, value }): GivenValue[] =>
    system === undefined ? [] : [{ path: ['patient', 'identifiers'], value: { system, value }, as: 'add' }],
  );
  return {
    values: [
      ...identifiers,
      ...set(['patient', 'name'], nameAt(patient)),
      ...set(['patient', 'birthDate'], textAt(patient, 'birthDate')),
      ...set(['patient', 'sex'], textAt(patient, 'gender')),
    ],
  };
}

/** Categories of reports of imaging, HL7 table 0074. Source: http://hl7.org/fhir/R4/v2/0074/index.html, codes from memory. */
const IMAGING = new Set([
  'RAD',
  'IMG',
  'CT',
  'CTH',
  'NMR',
  'RUS',
  'RX',
  'VUS',
  'XRC',
  'CUS',
  'NMS',
  'EN',
  'LP29684-5',
]);

/** What the last reports of imaging came to, for a person to take over. */
function reportValues(reports: readonly ExactObject[]): Taken {
  const final = reports.filter(
    report =>
      ['final', 'amended', 'corrected', 'appended'].includes(textAt(report, 'status') ?? '') &&
      listAt(report, 'category').some(category => codings(category).some(({ code }) => IMAGING.has(code))),
  );
  const told = final
    .map(report => {
      const on = madeAt(report) ?? timeAt(report, 'issued');
      return { report, on };
    })
    .sort((a, b) => ((a.on ?? '') < (b.on ?? '') ? 1 : -1))
    .slice(0, 2);
  return {
    values: told.flatMap(({ report, on }): GivenValue[] => {
      const conclusion = textAt(report, 'conclusion')?.replace(/\s+/g, ' ').trim();
      if (!conclusion) return [];
      const what = conceptAt(report, 'code') ?? codeAt(report, 'code') ?? 'Imaging';
      const value = `${what}${on === undefined ? '' : ` of ${on.slice(0, 10)}`}: ${conclusion}`;
      return [{ path: ['before', 'imaging'], value, as: 'propose', ...(on !== undefined && { at: on }) }];
    }),
  };
}
