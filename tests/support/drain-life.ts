/** The life of one drain, as small whole records: placed, exchanged, looked at, removed. */
export interface DrainCase {
  readonly id: string;
  /** YYYY-MM-DD */
  readonly date: string;
  /** Lot of the drain that was in place before, with its device identifier; typed without one where `bare`. */
  readonly before?: string;
  /** Lot of the drain that is placed. */
  readonly placed?: string;
  readonly bare?: boolean;
  /** More lines under carried. */
  readonly carried?: string;
  readonly latest?: string;
  readonly report?: string;
  readonly side?: 'left' | 'right';
  /** Number of the patient; always the same when absent. */
  readonly patient?: string;
}

const DI = '09506000117843';
const patient = 'PT-700112';

/** Text of a record. */
export function drainCase(one: DrainCase): string {
  const { id, date, before, placed, bare, side = 'left' } = one;
  const site = `site: Renal pelvis, side: ${side}`;
  const old =
    before === undefined
      ? ''
      : `  old: { kind: nephrostomy catheter, size: 8 Fr, ${bare ? '' : `udi: "${DI}", lot: "${before}", `}carried: { ${site}${one.carried ? `, ${one.carried}` : ''} } }\n`;
  const now =
    placed === undefined
      ? ''
      : `  new: { kind: nephrostomy catheter, size: 8 Fr, udi: "${DI}", lot: "${placed}" }\n`;
  const events = [
    ...(before === undefined ? [] : ['  - { at: "09:20", do: remove, device: old, state: intact }']),
    ...(placed === undefined ? [] : ['  - { at: "09:25", do: insert, device: new, into: Renal pelvis }']),
  ].join('\n');
  const left =
    placed === undefined
      ? 'left: none\n'
      : `left:\n  - { device: new, purpose: temporary, ${site}, until: { condition: exchange }, latest: ${one.latest ?? '12 weeks'} }\n`;
  return `casetally: 1
case: { id: "${id}", status: completed, date: ${date}, timeZone: Pacific/Auckland, started: "09:10", ended: "09:40", kind: ${before === undefined ? 'nephrostomy' : placed === undefined ? 'nephrostomy removal' : 'nephrostomy exchange'} }
patient: { name: Ines Tolmachev, birthDate: 1961-04-02, sex: female, pregnant: not applicable, identifiers: [{ system: "https://ids.tawhai-inlet.example/patients", value: ${one.patient ?? patient} }] }
team: [{ key: ir, role: operator, name: Dr Rua Pekwell }]
indication: { text: Ureteric stricture }
sedation: none
drugs: none
devices:
${old}${now}events:
${events}
radiation: none
contrast: none
complications: none
outcome: { overall: successful }
${left}advice: { contact: "Interventional suite" }
conclusion: As planned.
report: ${one.report ?? '{ status: final, author: ir, signedAt: "10:00" }'}
`;
}

export const drainPatient = patient;
