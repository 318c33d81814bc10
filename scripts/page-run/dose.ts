import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import dcmjs from 'dcmjs';
import { readDoseFiles } from '../../src/intake/dose/files.js';
import { type Group, group, list } from './data.js';

export interface DoseFile {
  readonly bytes: Uint8Array;
  /** What the record should say of it. */
  readonly radiation: Group;
}

/** More of what the library read than its own types say. */
interface Written {
  readonly dict: Readonly<Record<string, { Value?: unknown[] }>>;
  write(): ArrayBuffer;
}

/** The dose report of the intake example as if it were of the patient and the order of a case of today. */
export async function doseOf(record: Group): Promise<DoseFile> {
  const file = join(import.meta.dirname, '..', '..', 'examples', 'intake', 'dose.dcm');
  const { buffer, byteOffset, byteLength } = readFileSync(file);
  const report: unknown = dcmjs.data.DicomMessage.readFile(buffer.slice(byteOffset, byteOffset + byteLength));
  const { dict, write } = report as Written;
  const [patient, about] = [group(record['patient']), group(record['case'])];
  const day = new Date().toISOString().slice(0, 10).replaceAll('-', '');
  const [number] = list(patient['identifiers']);
  const set = (tag: string, value: unknown) => {
    const element = dict[tag];
    if (element) element.Value = [value];
  };
  set('00100010', { Alphabetic: `${patient['name']}`.split(' ').reverse().join('^') });
  set('00100020', `${number?.['value']}`);
  set('00100030', `${patient['birthDate']}`.replaceAll('-', ''));
  set('00100040', patient['sex'] === 'male' ? 'M' : 'F');
  set('00080050', `${about['accession'] ?? ''}`);
  for (const tag of ['00080020', '00080023']) set(tag, day);
  const bytes = new Uint8Array(write.call(report));
  const { contribution } = await readDoseFiles([{ file: 'dose.dcm', bytes }], {
    readAt: new Date().toISOString(),
  });
  const radiation = contribution.values.flatMap(({ path, value }): [string, string][] =>
    path[0] === 'radiation' && path.length === 2 ? [[`${path[1]}`, `${value as string}`]] : [],
  );
  return { bytes, radiation: Object.fromEntries(radiation.filter(([name]) => name !== 'system')) };
}
