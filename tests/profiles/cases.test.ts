import { describe, expect, it } from 'vitest';
import { version } from '../../scripts/profiles/source.js';
import { documentBundle } from '../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import type { ReferenceMode } from '../../src/fhir/options.js';
import { stops } from '../../src/findings/finding.js';
import { writeFhirJson } from '../../src/json/write.js';
import { registryEntries } from '../../src/registry/entry/entries.js';
import { registrySchema } from '../../src/registry/options.js';
import { mapped, options } from '../fhir/cases.js';
import { fullCase } from '../fhir/full-case.js';
import { exampleFiles, knownExample } from '../support/examples.js';
import { addressOf, profileValidator } from './validators.js';

function faults(
  text: string,
  profiles: readonly string[] = [],
): { errors: string[]; profiles: readonly string[] } {
  const { issues, evaluated } = profileValidator().validateText(text, { profiles });
  const errors = issues.filter(({ severity }) => severity === 'error' || severity === 'fatal');
  return {
    errors: errors.map(issue => `${issue.key ?? issue.rule} ${issue.path} ${issue.message}`),
    profiles: evaluated.profiles,
  };
}

const always = ['case-procedure', 'used-device', 'procedure-report'];
const alsoInDocument = ['procedure-report-document', 'worked-out', 'component-procedure'];

describe.each(exampleFiles)('%s', file => {
  const prepared = knownExample(file);

  it('conforms to the profiles as document and as submission', () => {
    for (const [name, text] of Object.entries({
      document: prepared.document,
      submission: prepared.submission,
    })) {
      const found = faults(text);
      expect(found.errors).toEqual([]);
      const expected = [...always, ...(name === 'document' ? alsoInDocument : ['report-document-reference'])];
      expect(found.profiles).toEqual(
        expect.arrayContaining(expected.map(id => `${addressOf(id)}|${version()}`)),
      );
    }
  });

  it('claims a profile for each resource that one is for', () => {
    for (const { role, resource } of prepared.resources.entries) {
      const own = (resource.meta?.profile ?? []).filter(url => url.startsWith(addressOf('')));
      const meant =
        /^(composition$|procedure|device\/|use\/|aftercare|task\/|contrast\/|calculation\/|document-reference$|observation\/radiation)/.test(
          role,
        );
      if (meant) expect(own, role).toHaveLength(1);
      for (const url of own) expect(faults(writeFhirJson(resource), [url]).errors).toEqual([]);
    }
  });

  it('gives registry entries that conform', () => {
    const key = { id: 'test', secret: new TextEncoder().encode('secret of a test') };
    for (const settings of [
      {},
      { ages: 'years', serials: 'keep', dates: 'day' },
      { ages: 'leave out', dates: 'year' },
    ]) {
      const agreed = registrySchema.parse({ name: 'Test registry', ...settings });
      const { entries } = registryEntries(prepared.record, prepared.assessment, agreed, key);
      for (const { resource, findings } of entries)
        if (!findings.some(stops))
          expect(faults(JSON.stringify(resource), [addressOf('registry-entry')]).errors).toEqual([]);
    }
  });
});

const modes: ReferenceMode[] = ['match', 'include', 'identifier', { id: '17' }];

describe.each(modes)('a case with every field, shared resources by %j', mode => {
  const references = {
    patient: mode,
    encounter: mode,
    order: mode,
    practitioner: mode,
    organization: mode,
    location: mode,
  };

  it('conforms', () => {
    const { set } = mapped(JSON.stringify(fullCase), { references });
    for (const bundle of [documentBundle(set), submissionBundle(set, { ...options, references })])
      expect(faults(writeFhirJson(bundle)).errors).toEqual([]);
  });
});
