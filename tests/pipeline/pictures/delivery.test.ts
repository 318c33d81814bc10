import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Bundle, DocumentReference, Resource } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { retry } from '../../../src/cli/commands/outbox/retry.js';
import { prepare } from '../../../src/cli/commands/prepare.js';
import { send } from '../../../src/cli/commands/send.js';
import type { Output } from '../../../src/cli/output.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { examplesFolder } from '../../support/examples.js';
import { halves, SECRET, withMetadata } from './files.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-delivery-'));
const first = join(folder, 'version-1.yaml');
const second = join(folder, 'version-2.yaml');
let server: RunningSandbox;

function capture() {
  const said: string[] = [];
  const errors: string[] = [];
  const output: Output = {
    out: text => void said.push(text),
    err: text => void errors.push(text),
    color: false,
  };
  return { said, errors, output };
}

/** A site whose destination `records` is at an address. */
function siteAt(url: string): string {
  const path = join(folder, 'site.yaml');
  writeFileSync(
    path,
    `casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "${url}", timeout: 20, metadataAge: 0 }
`,
  );
  return path;
}

beforeAll(async () => {
  server = await startSandbox();
  const text = readFileSync(join(examplesFolder, 'pictures', 'drain-check.yaml'), 'utf8');
  copyFileSync(join(examplesFolder, 'pictures', 'check.png'), join(folder, 'check.png'));
  writeFileSync(join(folder, 'other.jpg'), withMetadata(await halves('image/jpeg', 64, 32), 1));
  writeFileSync(first, text);
  writeFileSync(
    second,
    text
      .replace('file: check.png', 'file: other.jpg')
      .replace(
        /^report: .*$/m,
        'report: { status: amended, version: 2, author: op, signedAt: "11:10", change: { of: "1", by: op, at: "11:00", why: Another film was meant } }',
      ),
  );
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

const documentsIn = (resources: readonly Resource[]) =>
  resources.filter((one): one is DocumentReference => one.resourceType === 'DocumentReference');

/** The forms of a report that a DocumentReference carries. */
function formsOf(reference: DocumentReference | undefined): { html: string; pdf: Buffer } {
  const data = (type: string) =>
    Buffer.from(
      reference?.content.find(one => one.attachment.contentType === type)?.attachment.data ?? '',
      'base64',
    );
  return { html: data('text/html').toString('utf8'), pdf: data('application/pdf') };
}
const sourceOf = (html: string) =>
  /<img src="data:image\/jpeg;base64,([^"]*)"/.exec(html)?.[1]?.replaceAll('&#x3D;', '=');

describe('a report with a picture', () => {
  it('travels whole in the submission, in HTML and PDF', async () => {
    const out = join(folder, 'one');
    mkdirSync(out);
    const { output } = capture();
    expect(await prepare(first, { out }, output)).toBe(0);
    const submission = JSON.parse(readFileSync(join(out, 'submission.json'), 'utf8')) as Bundle;
    const [reference] = documentsIn(submission.entry?.map(entry => entry.resource as Resource) ?? []);
    const { html, pdf } = formsOf(reference);
    const jpeg = Buffer.from(sourceOf(html) ?? '', 'base64');
    expect(jpeg.subarray(0, 3).toString('hex')).toBe('ffd8ff');
    expect(pdf.includes(jpeg)).toBe(true);
    expect(readFileSync(join(out, 'report.pdf')).equals(pdf)).toBe(true);
  });

  it('is stored whole, so that it is delivered later without the file', async () => {
    const data = join(folder, 'data');
    const away = capture();
    expect(
      await send(first, { site: siteAt('http://127.0.0.1:4/fhir'), data, to: 'records' }, away.output),
    ).toBe(4);
    const kept = readFileSync(join(folder, 'check.png'));
    rmSync(join(folder, 'check.png'));
    const { output, said, errors } = capture();
    expect(
      await retry(undefined, { site: siteAt(server.baseUrl), data }, output),
      said.join('') + errors.join(''),
    ).toBe(0);
    writeFileSync(join(folder, 'check.png'), kept);
    const held = documentsIn(server.repository.all() as Resource[]);
    expect(held).toHaveLength(1);
    expect(sourceOf(formsOf(held[0]).html)).toMatch(/^\/9j\//);
  });

  it('is superseded with the picture it was sent with, by one with its own', async () => {
    const data = join(folder, 'data');
    const before = sourceOf(formsOf(documentsIn(server.repository.all() as Resource[])[0]).html);
    const { output, said, errors } = capture();
    const flags = { site: siteAt(server.baseUrl), data, to: 'records', previous: [first] };
    expect(await send(second, flags, output), said.join('') + errors.join('')).toBe(0);
    const held = documentsIn(server.repository.all() as Resource[]);
    const [old, now] = ['superseded', 'current'].map(status => held.find(one => one.status === status));
    expect(held).toHaveLength(2);
    expect(sourceOf(formsOf(old).html)).toBe(before);
    expect(sourceOf(formsOf(now).html)).toMatch(/^\/9j\//);
    expect(sourceOf(formsOf(now).html)).not.toBe(before);
    expect(Buffer.from(sourceOf(formsOf(now).html) ?? '', 'base64').includes(SECRET)).toBe(false);
    expect(formsOf(now).pdf.includes(SECRET)).toBe(false);
  });

  it('says whose picture is missing when that of an earlier version cannot be read', async () => {
    rmSync(join(folder, 'check.png'));
    const out = join(folder, 'two');
    mkdirSync(out);
    const { output, errors } = capture();
    expect(await prepare(second, { out, previous: [first] }, output)).toBe(0);
    const about = (version: string) =>
      errors
        .join('')
        .split(/^(?=\S+\.yaml: )/m)
        .find(text => text.includes(`${version}.yaml: `));
    expect(about('version-1')).toMatch(/^warning \d+:\d+ {2}[\s\S]*\(picture\.not-read,/m);
    expect(about('version-2')).not.toContain('picture.');
  });
});
