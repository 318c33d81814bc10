import {
  brotliCompressSync,
  brotliDecompressSync,
  constants,
  deflateRawSync,
  inflateRawSync,
} from 'node:zlib';
import { CasetallyError } from '../../findings/errors.js';
import type { Entry, PackageSource, Shelf, StructureEntry } from './definitions.js';
import type { CodeSystem, Structure, ValueSet } from './model.js';

/*
 * The compiled definitions file: a mark, the length of the directory (32 bit, big endian), the
 * directory (JSON, brotli), then one deflated JSON text a definition. Only what is asked for is
 * inflated, so opening costs the directory alone.
 */
const MARK = 'CTDEFS1\n';

interface Directory {
  readonly sources: readonly PackageSource[];
  /** Rows: address, version, offset, length; structures carry their type in addition. */
  readonly structures: readonly (readonly [string, string, number, number, string])[];
  readonly valueSets: readonly (readonly [string, string, number, number])[];
  readonly codeSystems: readonly (readonly [string, string, number, number])[];
}

export interface Content {
  readonly sources: readonly PackageSource[];
  readonly structures: readonly Structure[];
  readonly valueSets: readonly ValueSet[];
  readonly codeSystems: readonly CodeSystem[];
}

/** Writes definitions into the bytes of one compiled file; the same content gives the same bytes. */
export function packDefinitions(content: Content): Uint8Array {
  const chunks: Buffer[] = [];
  let offset = 0;
  const place = (value: object): [number, number] => {
    const chunk = deflateRawSync(JSON.stringify(value), { level: 9 });
    const at = offset;
    chunks.push(chunk);
    offset += chunk.length;
    return [at, chunk.length];
  };
  const directory: Directory = {
    sources: content.sources,
    structures: content.structures.map(s => [s.url, s.version ?? '', ...place(s), s.type]),
    valueSets: content.valueSets.map(v => [v.url, v.version ?? '', ...place(v)]),
    codeSystems: content.codeSystems.map(c => [c.url, c.version ?? '', ...place(c)]),
  };
  const head = brotliCompressSync(JSON.stringify(directory), {
    params: { [constants.BROTLI_PARAM_QUALITY]: 11 },
  });
  const length = Buffer.alloc(4);
  length.writeUInt32BE(head.length);
  return Buffer.concat([Buffer.from(MARK, 'latin1'), length, head, ...chunks]);
}

/** Opens the bytes of a compiled file. */
export function openDefinitions(bytes: Uint8Array): Shelf {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (file.toString('latin1', 0, MARK.length) !== MARK) {
    throw new CasetallyError('definitions-unreadable', 'These bytes are not a compiled definitions file.');
  }
  const start = MARK.length + 4;
  const end = start + file.readUInt32BE(MARK.length);
  const directory = JSON.parse(brotliDecompressSync(file.subarray(start, end)).toString('utf8')) as Directory;
  const read = <T>(at: number, length: number): (() => T) => {
    let value: T | undefined;
    return () => {
      value ??= JSON.parse(inflateRawSync(file.subarray(end + at, end + at + length)).toString('utf8')) as T;
      return value;
    };
  };
  const entry = <T>([url, version, at, length]: readonly [string, string, number, number]): Entry<T> => ({
    url,
    version,
    get: read<T>(at, length),
  });
  return {
    sources: directory.sources,
    structures: directory.structures.map(
      ([url, version, at, length, type]): StructureEntry => ({
        ...entry<Structure>([url, version, at, length]),
        type,
      }),
    ),
    valueSets: directory.valueSets.map(row => entry<ValueSet>(row)),
    codeSystems: directory.codeSystems.map(row => entry<CodeSystem>(row)),
  };
}
