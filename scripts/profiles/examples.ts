import { readFileSync } from 'node:fs';
import type { DeviceUseStatement } from 'fhir/r4.js';
import { documentBundle } from '../../src/fhir/bundles/document.js';
import { type Replacement, withReferences } from '../../src/fhir/bundles/references.js';
import { mapCase } from '../../src/fhir/map-case.js';
import type { ResourceEntry, ResourceSet } from '../../src/fhir/set.js';
import { messageOf, stops } from '../../src/findings/finding.js';
import { writeFhirJson } from '../../src/json/write.js';
import { checkCase } from '../../src/pipeline/check.js';
import { mappingOptions } from '../../src/pipeline/settings.js';
import { askedElements } from '../../src/registry/entry/elements.js';
import { registryEntries } from '../../src/registry/entry/entries.js';
import { fhirEntry } from '../../src/registry/entry/fhir.js';
import { registrySchema } from '../../src/registry/options.js';
import { sectionKeys } from '../../src/report/view/model.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { canonical, type Raw, root, version } from './source.js';

/** An example of a profile, as it is published. */
export interface ProfileExample {
  /** Address of the profile that it is an example of. */
  readonly profile: string;
  /** FHIR JSON with the digits of the record. */
  readonly text: string;
  readonly resource: Raw;
}

/** Which resource of which example case shows a profile. */
const chosen: readonly (readonly [profile: string, role: string, file: string])[] = [
  ['procedure-report', 'composition', 'nephrostomy-exchange-transplant.yaml'],
  ['case-procedure', 'procedure', 'nephrostomy-exchange-transplant.yaml'],
  ['component-procedure', 'procedure/exchange/drain', 'nephrostomy-exchange-transplant.yaml'],
  ['case-device', 'device/drain', 'nephrostomy-exchange-transplant.yaml'],
  ['used-device', 'device/wire', 'nephrostomy-exchange-transplant.yaml'],
  ['device-use', 'use/drain', 'nephrostomy-exchange-transplant.yaml'],
  ['aftercare-plan', 'aftercare', 'nephrostomy-exchange-transplant.yaml'],
  ['aftercare-item', 'aftercare/', 'nephrostomy-exchange-transplant.yaml'],
  ['aftercare-task', 'task/', 'nephrostomy-exchange-transplant.yaml'],
  ['dose-summary', 'observation/radiation', 'nephrostomy-exchange-transplant.yaml'],
  ['dose-figure', 'observation/kerma-area-product', 'nephrostomy-exchange-transplant.yaml'],
  ['contrast-given', 'contrast/1', 'nephrostomy-exchange-transplant.yaml'],
  ['worked-out', 'calculation/', 'nephrostomy-exchange-transplant.yaml'],
  ['report-document-reference', 'document-reference', 'nephrostomy-exchange-transplant.yaml'],
  ['dose-earlier', 'observation/radiation/earlier-1', 'ureteric-stent-tumour.yaml'],
];

/** One example for each profile of a resource or document that leaves the software; the same at each call. */
export function profileExamples(): ProfileExample[] {
  const sets = new Map([...new Set(chosen.map(([, , file]) => file))].map(file => [file, mapped(file)]));
  const names = new Map<string, Replacement>();
  const found = chosen.map(([profile, role, file]) => {
    const entry = entryOf(sets.get(file), role);
    names.set(entry.fullUrl, { reference: `${entry.resource.resourceType}/${profile}-example` });
    return { profile, entry };
  });
  for (const set of sets.values())
    for (const { fullUrl, resource } of set.entries)
      if (!names.has(fullUrl))
        names.set(fullUrl, { reference: fullUrl.replace('urn:uuid:', `${resource.resourceType}/`) });
  return [
    ...found.map(({ profile, entry }) => example(profile, withReferences(entry.resource, names))),
    example('procedure-report-document', documentBundle(mapped('liver-biopsy.yaml'))),
    ...registryExamples('nephrostomy-exchange-transplant.yaml'),
  ].sort((a, b) => (a.profile < b.profile ? -1 : 1));
}

function example(name: string, resource: object, id = name): ProfileExample {
  const profile = `${canonical}/StructureDefinition/${name}`;
  const { resourceType, meta, ...rest }: Raw = JSON.parse(writeFhirJson(resource));
  const claimed = (meta as { profile?: string[] } | undefined)?.profile ?? [];
  const profiles = claimed.includes(profile) ? claimed : [...claimed, profile];
  const plain = { ...resource };
  for (const key of Object.keys(plain))
    if (key === 'resourceType' || key === 'meta') Reflect.deleteProperty(plain, key);
  const head = { resourceType, id: `${id}-example`, meta: { profile: profiles } };
  const text = `${writeFhirJson({ ...head, ...plain })}\n`;
  return { profile, text, resource: { ...head, ...rest } };
}

function entryOf(set: ResourceSet | undefined, role: string): ResourceEntry {
  const found = set?.entries.find(entry =>
    role.endsWith('/') ? entry.role.startsWith(role) : entry.role === role,
  );
  if (!found) throw new Error(`No resource of the examples has the role ${role}`);
  return found;
}

function checked(file: string) {
  const text = readFileSync(new URL(`examples/${file}`, root), 'utf8');
  const { record, assessment, findings } = checkCase(text, unconfiguredSite);
  if (!record || !assessment) throw new Error(`${file}: ${findings.map(f => messageOf(f)).join('; ')}`);
  return { record, assessment };
}

const div = (text: string) =>
  `<div xmlns="http://www.w3.org/1999/xhtml" lang="en-GB" xml:lang="en-GB"><p>${text}</p></div>`;

/** An example case with a few words in place of its report, so that the examples stay small. */
export function mapped(file: string): ResourceSet {
  const { record, assessment } = checked(file);
  const title = 'Procedure report';
  const sections = sectionKeys.map(key => ({ key, div: div(`Section: ${key}`) }));
  const attachments = [
    { contentType: 'text/html', title, data: `<!DOCTYPE html><title>${title}</title><p>${title}</p>` },
  ];
  return mapCase(
    record,
    assessment,
    { title, div: div(title), sections, attachments },
    mappingOptions(unconfiguredSite, version()),
  );
}

/** Cases whose entries show what the first example has not: a part, several alike, a case that did two things. */
const furtherEntries: readonly (readonly [name: string, file: string, shows: string])[] = [
  ['part', 'fractured-wire-tip.yaml', 'part-of-device'],
  ['several', 'embolisation.yaml', 'number-alike'],
  ['two-kinds', 'biliary-drainage-and-stent.yaml', 'also-done'],
  ['taken-out', 'nephrostomy-exchange-transplant.yaml', 'removal-reason'],
  ['staying', 'nephrostomy-exchange-transplant.yaml', 'next-review'],
  ['sided', 'dialysis-circuit-angioplasty.yaml', 'site-side'],
];

/** An entry as it is sent, and what it contains once more by itself; then the further entries. */
function registryExamples(file: string): ProfileExample[] {
  const entry = entryOfCase(file, () => true);
  const within = (entry.contained ?? []).map(resource => [resource, `registry-${resource.id}`] as const);
  const alone = new Map<string, Replacement>(
    within.map(([{ id, resourceType }, name]) => [
      `#${id}`,
      { reference: `${resourceType}/${name}-example` },
    ]),
  );
  return [
    example('registry-entry', entry),
    ...within.map(([{ id: _, ...resource }, name]) => example(name, withReferences(resource, alone))),
    ...furtherEntries.map(([name, of, shows]) =>
      example(
        'registry-entry',
        entryOfCase(of, text => text.includes(`/StructureDefinition/${shows}"`)),
        `registry-entry-${name}`,
      ),
    ),
  ];
}

/** The first entry of an example case that can be sent and has what is looked for. */
function entryOfCase(file: string, has: (json: string) => boolean): DeviceUseStatement {
  const { record: asWritten, assessment } = checked(file);
  const { kind } = asWritten.case;
  // That case also placed a stent, and many would write its kind so.
  const both = kind === 'biliary drainage' ? 'biliary drainage and biliary stent' : kind;
  const record = { ...asWritten, case: { ...asWritten.case, kind: both } };
  const options = registrySchema.parse({ name: 'Example registry' });
  const key = { id: 'example', secret: new TextEncoder().encode('an example of a secret') };
  const narrow = registryEntries(record, assessment, options, key).entries;
  // What a registry can ask for at most.
  const carried = [...assessment.devices.values()].filter(device => device.carried);
  const extras = {
    ...{ asked: new Set(askedElements), codes: {}, unit: 'Example unit' },
    earlier: new Map(carried.map(({ key }) => [key, { device: 'drain', placedIn: 'EARLIER-1' }])),
  };
  const wide = registryEntries(record, assessment, options, key, extras).entries.map(entry => ({
    ...entry,
    resource: fhirEntry({ ...entry.elements, version: 1 }, options),
  }));
  const found = [...narrow, ...wide].find(
    ({ findings, resource }) => !findings.some(stops) && has(JSON.stringify(resource)),
  );
  if (!found) throw new Error(`${file} has no such registry entry`);
  return found.resource;
}
