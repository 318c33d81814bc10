import { contentGroupNames, contentGroups, groupOf } from '../src/fhir/contents.js';
import { exampleFiles } from '../tests/support/examples.js';
import { mapped } from './profiles/examples.js';

/** Searches of a receiver, with what they find; `{patient}` and the like stand for addresses at the server. */
export const searches: readonly { readonly for: string; readonly query: string }[] = [
  { for: 'devices in a patient', query: 'Device?patient={patient}&status=active' },
  { for: 'when each is to come out', query: 'DeviceUseStatement?patient={patient}' },
  // R4 has no search by lot: udi-carrier compares the beginning of the printed form, which is the identifier.
  { for: 'every device of an identifier; its lot is in `lotNumber`', query: 'Device?udi-di={identifier}' },
  { for: 'reports of a patient that stand', query: 'DocumentReference?patient={patient}&status=current' },
  { for: 'the case of an order', query: 'Procedure?based-on={order}' },
  { for: 'the case of an encounter', query: 'Procedure?encounter={encounter}' },
  { for: 'what is due by a day', query: 'ServiceRequest?patient={patient}&status=active&occurrence=le{day}' },
  { for: 'the dose of a case', query: 'Observation?part-of={procedure}' },
  { for: 'drugs and contrast of a patient', query: 'MedicationAdministration?patient={patient}' },
];

/** Searches with parameters of ours, where R4 has none: a server has to load them first. */
export const ownSearches: typeof searches = [
  { for: 'devices in use in a patient', query: 'DeviceUseStatement?subject={patient}&status=active' },
  { for: 'uses that a case told of', query: 'DeviceUseStatement?derived-from={procedure}' },
  { for: 'cases that placed or took out a device', query: 'Procedure?focal-device={device}' },
  { for: 'devices of a lot, and of lots that begin with it', query: 'Device?lot-number={lot}' },
  { for: 'devices by serial number, or its beginning', query: 'Device?serial-number={serial}' },
  { for: 'tasks whose time begins by a day', query: 'Task?restriction-period=le{day}' },
  { for: 'tasks whose last day is before a day', query: 'Task?restriction-period=eb{day}' },
];

/** `devices.drain.label`, `drugs[0].dose` as the schema knows them: `devices.*.label`, `drugs[].dose`. */
const fieldOf = (path: string) =>
  path
    .replace(/\[\d+\]/g, '[]')
    .replace(/^(devices|targets)\.[^.]+/, '$1.*')
    .replace(/\.parts\.[^.]+/, '.parts.*');

/** The page of what a case is mapped to and what of it is sent: from the table of contents and the examples. */
export function mappingPage(): string {
  const fields = new Map<string, Map<string, boolean>>();
  for (const entry of exampleFiles.flatMap(file => mapped(file).entries)) {
    const group = groupOf(entry);
    const core = group === undefined || contentGroups[group].core;
    for (const [element, path] of Object.entries(entry.sources)) {
      const known = fields.get(fieldOf(path)) ?? new Map<string, boolean>();
      known.set(element, core || known.get(element) === true);
      fields.set(fieldOf(path), known);
    }
  }
  const groups = contentGroupNames.map(
    name => `| \`${name}\` | ${contentGroups[name].core ? 'core' : 'full'} | ${contentGroups[name].why} |`,
  );
  const rows = [...fields]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([field, elements]) => {
      const of = (core: boolean) =>
        [...elements]
          .filter(([, is]) => is === core)
          .map(([element]) => `\`${element}\``)
          .sort()
          .join(', ');
      return `| \`${field}\` | ${of(true)} | ${of(false)} |`;
    });
  return `# What a case becomes

Made from the code and the examples by \`npm run docs\`.

## What is sent

A submission with \`fhir.contents: core\` carries the groups marked core; \`full\` carries all. \`fhir.groups\`, or \`groups\` of one destination, adds a group (\`tasks: true\`) or leaves one out (\`plan: false\`). What is not sent stands in the document Bundle all the same. References to what is not sent are left out; tools without a label are named by kind in \`Procedure.usedCode\`, diagnoses in \`reasonCode\` of the procedure and of the uses of devices. A correction sends again whatever an earlier version of the case sent to that destination. \`npx tsx bench/sizes.ts\` prints resources and bytes of each example with \`full\` and with \`core\`.

| group | sent with | what a receiver finds in it |
|---|---|---|
${groups.join('\n')}

**Where values came from**: what the record lists under \`sources\` is in \`Provenance.entity\` with the role \`source\`, one entity for each order, kit or dose report; its display names the source, its time and the values taken from it ([docs/intake.md](intake.md)). Sources are no resources of the case, so words name them. A record without \`sources\` has the same Provenance as before.

Three things that R4 says in places of its own:

- **When a device is to come out** is the end of \`DeviceUseStatement.timingPeriod\` while its status is \`active\`: in R4 the end of a period that lies in the future is the planned one. It is sent for what an item of aftercare takes out or changes on a day, never for an implant that is meant to stay. Status alone says that a device is out: one that is \`active\` past its end is overdue.
- **Left and right** are in the words of every body site, and in its code where the free set of SNOMED CT has one for site and side together. R4 codes a side by itself in \`BodyStructure.locationQualifier\` alone; its extensions for body sites are for other elements than that of a device in use. The structures are resources of their own with \`bodySites\`, and stand inside the Procedure without it, which the uses of devices point at with \`derivedFrom\`.
- **How strong a drug was** is \`ingredient.strength\` of a Medication inside the MedicationAdministration (10 mg in 1 mL for 1 %; for contrast the iodine or gadolinium), where drug and strength can be told; else the drug stands by its name in \`medicationCodeableConcept\`. \`dosage.dose\` is the dose as recorded, and \`dosage.text\` says what a volume comes to in mass or units: R4 has one place for a dose.

When a later case takes a device out, Device, DeviceUseStatement, ServiceRequest and Task of the earlier one change at the destination: [register.md](register.md#at-the-destinations).

Patient, encounter and order are pointed at or sent along as \`references\` says. Staff, departments and rooms are pointed at by number, or named.

## How a receiver finds it

| what | search |
|---|---|
${searches.map(({ for: what, query }) => `| ${what} | \`${query}\` |`).join('\n')}

R4 has no search parameter for some of what a receiver asks. Ours for these are in \`profiles/\` and in the package (\`casetally packages push\` loads them); status, lot number and serial number are those of R5. The embedded server knows them, another one must support search parameters of its own.

| what | search |
|---|---|
${ownSearches.map(({ for: what, query }) => `| ${what} | \`${query}\` |`).join('\n')}

## From the record to the resources

Elements in the second column are sent with core, those in the third with full. An element that follows from several fields stands with the one that it is traced back to.

| field of the record | core | full |
|---|---|---|
${rows.join('\n')}
`;
}
