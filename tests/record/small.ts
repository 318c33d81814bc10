/** The smallest case that raises no finding, as YAML; tests change one thing in it. */
export const SMALL = `casetally: 1
case:
  id: T-1
  status: completed
  date: 2024-03-14
  timeZone: Europe/Lisbon
  started: "09:00"
  ended: "10:00"
  kind: drain removal
patient:
  identifiers: [{ system: "urn:oid:2.16.840.1.113883.19.5", value: "1" }]
  sex: female
  weight: 68 kg
team:
  - { key: op, role: operator, name: Invented Operator }
indication:
  text: Invented
before:
  allergies: none
  anticoagulants: none
  consent: { status: given }
drugs: none
targets:
  cavity: { what: Abscess cavity }
devices:
  wire: { kind: guidewire, diameter: 0.035 in, length: 80 cm }
  drain: { kind: drainage catheter, size: 8 Fr, carried: { date: 2024-03-01 }, parts: { lock: { kind: retention thread } } }
events:
  - { at: "09:10", do: insert, device: wire, through: drain, across: cavity }
  - { at: "09:12", do: remove, device: drain, over: wire, state: intact }
  - { at: "09:12", do: remove, device: drain, part: lock, state: intact }
  - { at: "09:14", do: remove, device: wire, state: intact }
contrast: none
radiation: none
specimens: none
complications: none
outcome: { overall: successful }
left: none
report: { status: preliminary, author: op }
`;

/** `SMALL` with one passage changed; fails when the passage is not there. */
export function small(from: string | RegExp, to: string): string {
  const changed = SMALL.replace(from, to);
  if (changed === SMALL) throw new Error(`nothing in the small case matches ${String(from)}`);
  return changed;
}

/** The line, from 1, on which a passage first stands. */
export function lineOf(text: string, passage: string): number {
  const index = text.indexOf(passage);
  if (index < 0) throw new Error(`'${passage}' is not in the text`);
  return text.slice(0, index).split('\n').length;
}

/** The column, from 1, at which a passage first stands in its line. */
export function columnOf(text: string, passage: string): number {
  return (text.slice(0, text.indexOf(passage)).split('\n').at(-1)?.length ?? 0) + 1;
}
