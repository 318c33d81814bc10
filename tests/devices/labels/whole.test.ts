import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { LabelOptions } from '../../../src/devices/labels/types.js';
import { type Whole, wholeOf } from './whole.js';

/** A text, or several scanned one after the other, and everything that they are read as. */
interface Case {
  name: string;
  text: string | string[];
  options?: Partial<LabelOptions>;
  reads: Whole[];
}

const folder = new URL('whole/', import.meta.url);
const files = readdirSync(folder).filter(name => name.endsWith('.yaml'));

describe.each(files)('%s', file => {
  const cases: Case[] = parse(readFileSync(new URL(file, folder), 'utf8'));
  it.each(cases.map(one => [one.name, one] as const))('%s', (_name, { text, options, reads }) => {
    expect(wholeOf([text].flat(), options)).toEqual(reads);
  });
});
