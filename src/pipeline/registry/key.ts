import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { CasetallyError, reason } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { PseudonymKey, RegistryOptions } from '../../registry/options.js';

/** Bytes that a secret must have. */
const SHORTEST = 16;

/**
 * The secret of a registry; without one a throw-away secret, so that pseudonyms never rest on something public. Every
 * byte of it counts, a line break at its end too, as pseudonyms that were made with it must come out the same.
 *
 * @param folder of the site configuration, where a relative path starts
 * @throws CasetallyError 'settings-invalid' or 'file-unreadable'.
 */
export async function registryKey(
  name: string,
  options: RegistryOptions,
  folder: string,
): Promise<{ readonly key: PseudonymKey; readonly findings: Finding[] }> {
  const { key: reference, keyId: id, keyEndsInNewline } = options;
  if (reference === undefined)
    return {
      key: { id: 'once', secret: randomBytes(32) },
      findings: [finding('registry.key-missing', '', { registry: name })],
    };
  const secret = await bytesOf(name, reference, folder);
  if (secret.length < SHORTEST)
    throw new CasetallyError(
      'settings-invalid',
      `the secret of registry '${name}' (${reference}) is missing or shorter than ${SHORTEST} bytes.`,
    );
  const newline = secret.at(-1) === 0x0a;
  if (newline && keyEndsInNewline === false)
    throw new CasetallyError(
      'settings-invalid',
      `the secret of registry '${name}' (${reference}) ends in a line break. Write the file without one, or set keyEndsInNewline: true where pseudonyms were already made with it.`,
    );
  const asks = newline && keyEndsInNewline === undefined;
  return {
    key: { id, secret },
    findings: asks ? [finding('registry.key-newline', '', { registry: name, key: reference })] : [],
  };
}

async function bytesOf(name: string, reference: string, folder: string): Promise<Uint8Array> {
  const place = reference.slice(reference.indexOf(':') + 1);
  if (reference.startsWith('env:')) return Buffer.from(process.env[place] ?? '', 'utf8');
  const path = resolve(folder, place);
  try {
    return await readFile(path);
  } catch (cause) {
    throw new CasetallyError(
      'file-unreadable',
      `the secret of registry '${name}' cannot be read from ${path}: ${reason(cause)}. A relative path starts at the folder of the site configuration.`,
      { cause },
    );
  }
}
