import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DocumentReference } from 'fhir/r4.js';
import { afterAll, describe, expect, it } from 'vitest';
import { report } from '../../../src/cli/commands/report.js';
import type { Output } from '../../../src/cli/output.js';
import { checkCase } from '../../../src/pipeline/check.js';
import { prepareCase } from '../../../src/pipeline/prepare.js';
import { audiences } from '../../../src/report/options.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, examplesFolder, exampleText, testTools } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-pdf-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const name = exampleFiles[0] ?? '';
const file = join(examplesFolder, name);

/** What a command writes; without `bytes` where a person looks at a terminal. */
function output(terminal: boolean) {
  const got = { out: '', err: '', bytes: Buffer.alloc(0) };
  const to: Output = {
    out: text => {
      got.out += text;
    },
    err: text => {
      got.err += text;
    },
    ...(!terminal && {
      bytes: (data: Uint8Array) => {
        got.bytes = Buffer.from(data);
      },
    }),
    color: false,
  };
  return { got, to };
}

describe('casetally report --format pdf', () => {
  it('writes the same bytes to a file and to another program, and no text between them', async () => {
    const { got, to } = output(false);
    expect(await report(file, { audience: 'ward', format: 'pdf' }, to)).toBe(0);
    const path = join(folder, 'ward.pdf');
    expect(await report(file, { audience: 'ward', format: 'pdf', out: path }, output(true).to)).toBe(0);
    expect(got.out).toBe('');
    expect(got.bytes.toString('latin1', 0, 8)).toBe('%PDF-1.7');
    expect(Buffer.compare(readFileSync(path), got.bytes)).toBe(0);
    expect(readdirSync(folder)).toEqual(['ward.pdf']);
  });

  it('refuses to fill a terminal', async () => {
    const { got, to } = output(true);
    expect(await report(file, { audience: 'record', format: 'pdf' }, to)).toBe(2);
    expect(got.err).toContain('--out');
  });
});

describe('a prepared case', () => {
  const { record, assessment } = checkCase(exampleText(name), unconfiguredSite);
  if (!record || !assessment) throw new Error(`${name} cannot be read`);

  it('has every report as PDF, and the DocumentReference carries that of the record with size and hash', async () => {
    const tools = { ...testTools(), pdf: await loadPdf() };
    const { reports, resources } = prepareCase(record, assessment, unconfiguredSite, tools);
    for (const audience of audiences) expect(reports[audience]?.pdf?.length).toBeGreaterThan(10_000);
    const pdf = Buffer.from(reports.record.pdf ?? []);
    const reference = resources.entries
      .map(entry => entry.resource)
      .find((resource): resource is DocumentReference => resource.resourceType === 'DocumentReference');
    const attachment = reference?.content
      .map(content => content.attachment)
      .find(one => one.contentType === 'application/pdf');
    // FHIR R4, Attachment: size is of the bytes before encoding, hash is their SHA-1 in base64.
    expect(attachment?.data).toBe(pdf.toString('base64'));
    expect(attachment?.size).toBe(pdf.length);
    expect(attachment?.hash).toBe(createHash('sha1').update(pdf).digest('base64'));
  });

  it('has none where the tools make none', () => {
    const { reports } = prepareCase(record, assessment, unconfiguredSite, testTools());
    for (const audience of audiences) expect(reports[audience]?.pdf).toBeUndefined();
  });
});
