import { readFileSync } from 'node:fs';
import type { Bundle } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import type { MappingOptions } from '../../src/fhir/options.js';
import { writeFhirJson } from '../../src/json/write.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { caseText, exampleNames, exampleText, mapped } from '../fhir/cases.js';

/*
 * Conditional create and transaction of https://hl7.org/fhir/R4/http.html (ccreate, transaction), and the standard's
 * own example Bundle-bundle-transaction.json (package hl7.fhir.r4.examples 4.0.1).
 */
const published: Bundle = JSON.parse(
  readFileSync(
    new URL('../../node_modules/hl7.fhir.r4.examples/Bundle-bundle-transaction.json', import.meta.url),
    'utf8',
  ),
);

const include: MappingOptions['references'] = {
  patient: 'include',
  encounter: 'include',
  order: 'include',
  practitioner: 'include',
  organization: 'include',
  location: 'include',
};

function submission(text: string): Bundle {
  const { set } = mapped(text, { references: include });
  return submissionBundle(set, { references: include });
}

describe('ifNoneExist', () => {
  it('of the published example is a query without type and question mark', () => {
    const forms = (published.entry ?? []).flatMap(entry => entry.request?.ifNoneExist ?? []);
    expect(forms).toEqual(['identifier=http:/example.org/fhir/ids|234234']);
  });

  it.each(exampleNames)(
    'of %s has that form on every entry, names one identity once, and no POST has an id',
    name => {
      const seen = new Set<string>();
      for (const { request, resource, fullUrl } of submission(exampleText(name)).entry ?? []) {
        expect(request?.method).toBe('POST');
        expect(request?.url).toBe(resource?.resourceType);
        expect(resource?.id).toBeUndefined();
        expect(resource?.meta?.versionId).toBeUndefined();
        expect(fullUrl).toMatch(/^urn:uuid:[0-9a-f-]{36}$/);
        expect(request?.ifNoneExist).toMatch(/^(identifier|_tag)=[^|=?&\s]+\|[^|=?&\s]+$/);
        const identity = `${request?.url} ${request?.ifNoneExist}`;
        expect(seen.has(identity), identity).toBe(false);
        seen.add(identity);
      }
    },
  );
});

describe('sending to a server', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  async function send(bundle: Bundle): Promise<string[]> {
    const response = await fetch(server.baseUrl, {
      method: 'POST',
      headers: { 'content-type': 'application/fhir+json' },
      body: writeFhirJson(bundle),
    });
    const answer: Bundle = JSON.parse(await response.text());
    expect(response.status, JSON.stringify(answer).slice(0, 600)).toBe(200);
    return (answer.entry ?? []).map(entry => (entry.response?.status ?? '').slice(0, 3));
  }

  it.each(exampleNames)('%s twice creates everything once', async name => {
    const bundle = submission(exampleText(name));
    const first = await send(bundle);
    // The software, the department and the like may be there from the case before.
    expect(first.filter(status => status === '201').length).toBeGreaterThan(first.length - 8);
    expect(new Set(await send(bundle))).toEqual(new Set(['200']));
  });

  it('a changed report updates what is there and creates only what is new', async () => {
    await send(submission(caseText()));
    const changed = caseText()
      .replace('status: final', 'status: amended, version: 2')
      .replace(
        'signedAt: "10:30"',
        'signedAt: "12:30", change: { of: "1", by: op, at: "12:20", why: Side corrected }',
      );
    const bundle = submission(changed);
    const statuses = await send(bundle);
    const created = (bundle.entry ?? [])
      .filter((_, index) => statuses[index] === '201')
      .map(entry => entry.resource?.resourceType);
    expect(created).toEqual(['DocumentReference', 'Provenance']);
  });
});
