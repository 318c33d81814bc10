import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { toResponse } from '../../../src/intake/form/to-response.js';
import { writeFhirJson } from '../../../src/json/write.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleText, preparedExample } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'form-'));
afterAll(() => rmSync(folder, { recursive: true }));

const example = new URL('../../../examples/forms/liver-biopsy.response.json', import.meta.url).pathname;

/** A command within this process. */
async function ran(...args: string[]) {
  const said = { out: '', err: '' };
  const code = await run(args, {
    out: text => {
      said.out += text;
    },
    err: text => {
      said.err += text;
    },
    color: false,
  });
  return { code, ...said };
}

describe('the example of a response', () => {
  it('is that of the case beside it: vitest -u renews it', async () => {
    const { response } = toResponse(exampleText('liver-biopsy.yaml'), {
      authored: '2024-04-16T15:30:00+09:00',
    });
    await expect(`${writeFhirJson(response ?? {})}\n`).toMatchFileSnapshot(example);
  });

  it('gives the same submission as the case', async () => {
    const out = join(folder, 'record.yaml');
    const { code, err } = await ran('from-response', example, '--out', out);
    expect([code, err]).toEqual([0, '']);
    const own = preparedExample('liver-biopsy.yaml');
    expect(preparedExample('liver-biopsy.yaml', unconfiguredSite, readFileSync(out, 'utf8')).submission).toBe(
      own.submission,
    );
    if (process.platform !== 'win32') expect(statSync(out).mode & 0o777).toBe(0o600);
  });
});

describe('the commands', () => {
  it('questionnaire prints the form under the address of the site', async () => {
    const { code, out } = await ran('questionnaire');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      ...{ resourceType: 'Questionnaire', url: 'https://casetally.example/fhir/Questionnaire/case-record' },
    });
  });

  it('to-response and from-response are each the way back of the other', async () => {
    const [response, record, again] = ['r.json', 'r.yaml', 'again.json'].map(name => join(folder, name));
    const biopsy = new URL('../../../examples/liver-biopsy.yaml', import.meta.url).pathname;
    expect((await ran('to-response', biopsy, '--out', `${response}`)).code).toBe(0);
    expect((await ran('from-response', `${response}`, '--out', `${record}`)).code).toBe(0);
    expect((await ran('to-response', `${record}`, '--out', `${again}`)).code).toBe(0);
    const items = (path = '') => (JSON.parse(readFileSync(path, 'utf8')) as { item: unknown }).item;
    expect(items(again)).toEqual(items(response));
  });

  it('from-response ends with 1 where something is wrong, and writes the record all the same', async () => {
    const wrong = join(folder, 'wrong.json');
    const text = readFileSync(example, 'utf8').replace('"valueDate"', '"valueDateTime"');
    writeFileSync(wrong, text);
    const { code, out } = await ran('from-response', wrong, '--json');
    expect(code).toBe(1);
    const { record, findings, leftOut } = JSON.parse(out) as Record<string, unknown>;
    expect(findings).toContainEqual(
      expect.objectContaining({ code: 'form.wrong-type', line: expect.any(Number) as number }),
    );
    expect(leftOut).toEqual([
      { place: expect.any(String) as string, content: '{"valueDateTime":"2024-04-16"}' },
    ]);
    expect(record).toContain('# item[0].item[');
  });

  it('from-response ends with 2 and writes nothing for what is no response', async () => {
    const out = join(folder, 'none.yaml');
    const site = new URL('../../../examples/site.yaml', import.meta.url).pathname;
    const { code, err } = await ran('from-response', site, '--out', out);
    expect(code).toBe(2);
    expect(err).toContain('form.not-json');
    expect(existsSync(out)).toBe(false);
    expect((await ran('to-response', site)).code).toBe(2);
  });
});
