import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import {
  hasErrors,
  summarise,
  toFinding,
  toOperationOutcome,
  validateFiles,
} from '../../src/conformance/index.js';
import { document, observation, procedure } from './bases.js';
import { errors, standard } from './validators.js';

const folder = mkdtempSync(join(tmpdir(), 'conformance-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bad = { ...procedure(), status: 'done' };

test('an issue names path, line, column, profile and element', () => {
  const { issues } = standard().validateText(JSON.stringify(bad, null, 2));
  expect(issues.find(i => i.rule === 'binding-required')).toMatchObject({
    severity: 'error',
    path: 'Procedure.status',
    line: 24,
    column: 3,
    expected: 'http://hl7.org/fhir/ValueSet/event-status|4.0.1',
    source: {
      profile: 'http://hl7.org/fhir/StructureDefinition/Procedure|4.0.1',
      element: 'Procedure.status',
    },
  });
});

test('the report lists what was really evaluated', () => {
  const { evaluated } = standard().validateResource(procedure());
  expect(evaluated.profiles).toContain(
    'http://hl7.org/fhir/uv/ips/StructureDefinition/Procedure-uv-ips|2.0.0',
  );
  expect(evaluated.profiles).toContain('http://hl7.org/fhir/StructureDefinition/Procedure|4.0.1');
  expect(evaluated.rules).toEqual(
    expect.arrayContaining(['dom-3', 'per-1', 'binding-required', 'reference-type']),
  );
  expect(evaluated.rules).not.toContain('obs-6');
});

test('an OperationOutcome conforms to FHIR itself, with and without issues', () => {
  for (const resource of [bad, procedure()]) {
    const outcome = toOperationOutcome(standard().validateText(JSON.stringify(resource)));
    expect(outcome.issue.length).toBeGreaterThan(0);
    expect(errors(standard().validateResource(outcome))).toEqual([]);
  }
});

test('a finding keeps code, place and source', () => {
  const issue = standard()
    .validateText(JSON.stringify(bad))
    .issues.find(i => i.severity === 'error');
  expect(issue && toFinding(issue)).toMatchObject({
    code: 'conformance.binding-required',
    severity: 'error',
    path: 'Procedure.status',
    line: 1,
    basis: expect.stringContaining('StructureDefinition/Procedure|4.0.1 Procedure.status'),
  });
});

test('files and the lines of NDJSON files are validated one by one', async () => {
  const one = join(folder, 'one.json');
  const many = join(folder, 'many.ndjson');
  writeFileSync(one, JSON.stringify(document()));
  writeFileSync(many, `${JSON.stringify(procedure())}\n\n${JSON.stringify(bad)}\nnot json\n`);
  const found: [string, number | undefined, boolean][] = [];
  for await (const { file, record, result } of validateFiles(standard(), [one, many])) {
    found.push([file, record, hasErrors(result)]);
  }
  expect(found).toEqual([
    [one, undefined, false],
    [many, 1, false],
    [many, 3, true],
    [many, 4, true],
  ]);
});

test.each(['nowhere.json', 'nowhere.ndjson'])(
  'a file that cannot be read is an error of the environment: %s',
  async name => {
    const run = async () => {
      for await (const _result of validateFiles(standard(), [join(folder, name)]));
    };
    await expect(run()).rejects.toMatchObject({ code: 'file-unreadable' });
  },
);

test('the summary counts by rule, errors first', () => {
  const results = [bad, bad, { ...observation(), status: undefined }].map(r =>
    standard().validateText(JSON.stringify(r)),
  );
  const rows = summarise(results.flatMap(r => r.issues));
  expect(rows.map(r => [r.rule, r.severity, r.count]).slice(0, 2)).toEqual([
    ['binding-required', 'error', 2],
    ['min', 'error', 1],
  ]);
});

test('a result does not depend on what was validated before', () => {
  const text = JSON.stringify(document());
  const first = JSON.stringify(standard().validateText(text));
  standard().validateText(JSON.stringify(bad));
  expect(JSON.stringify(standard().validateText(text))).toBe(first);
});

test('the resource is left as it was', () => {
  const resource = document();
  standard().validateResource(resource);
  expect(resource).toEqual(document());
});

test('the work grows with the entries, not with their square', () => {
  // Counted, not timed: characters of all paths ever looked up would hide it, so the reads of entries are counted.
  const count = (entries: number) => {
    let reads = 0;
    const resource = {
      resourceType: 'Bundle',
      type: 'collection',
      entry: Array.from({ length: entries }, (_unused, i) => ({
        get fullUrl() {
          reads += 1;
          return `urn:uuid:00000000-0000-4000-8000-${String(i).padStart(12, '0')}`;
        },
        resource: { resourceType: 'Basic', code: { text: 'a' } },
      })),
    };
    standard().validateResource(resource);
    return reads;
  };
  const small = count(50);
  expect(count(500)).toBeLessThanOrEqual(small * 10);
});
