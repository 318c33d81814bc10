import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { type DoseReading, readDoseFiles } from '../../../src/intake/dose/files.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';

/** Where the made-up reports lie; make.py writes them. */
export const objectsFolder = join(import.meta.dirname, 'objects');

interface Figure {
  readonly value: string;
  readonly unit: string;
}

/** What make.py put into an object. */
export interface Known {
  readonly kind?: 'x-ray' | 'ct';
  readonly error?: string;
  readonly patient?: { readonly id: string; readonly birthDate: string };
  readonly events?: number;
  readonly planes?: Readonly<Record<string, Readonly<Record<string, Figure>>>>;
  readonly summed?: Readonly<Record<string, string>>;
  readonly doseLengthProduct?: Figure;
  readonly dlpOfScans?: string;
  readonly scans?: readonly { readonly ctdivol?: string; readonly dlp?: string }[];
}

export const objects = Object.entries(
  parse(readFileSync(join(import.meta.dirname, 'objects.yaml'), 'utf8')) as Record<string, Known>,
);

export const bytesOf = (name: string) => new Uint8Array(readFileSync(join(objectsFolder, `${name}.dcm`)));

/** Objects that can be read. */
export const readable = objects.filter(([, { error }]) => error === undefined);

export const allFiles = () => readdirSync(objectsFolder);

const READ_AT = '2024-03-14T12:00:00Z';

export const readAll = (names: readonly string[], record?: CaseRecord): Promise<DoseReading> =>
  readDoseFiles(
    names.map(name => ({ file: `${name}.dcm`, bytes: bytesOf(name) })),
    { record, readAt: READ_AT },
  );
