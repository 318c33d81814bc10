import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { accountOf } from './account.js';

/** One case and its whole account: every row, every finding with its words, and where asked what is drawn. */
interface Case {
  name: string;
  record: Record<string, unknown>;
  rows: string[];
  said?: string[];
  marks?: string[];
}

const folder = new URL('accounts/', import.meta.url);
const files = readdirSync(folder).filter(name => name.endsWith('.yaml'));

describe.each(files)('%s', file => {
  const cases: Case[] = parse(readFileSync(new URL(file, folder), 'utf8'));
  it.each(cases.map(one => [one.name, one] as const))('%s', (_name, { record, rows, said = [], marks }) => {
    const account = accountOf(record);
    expect(account).toEqual({ rows, said, marks: marks ?? account.marks });
  });
});
