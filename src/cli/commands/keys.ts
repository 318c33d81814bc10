import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { JWK } from 'jose';
import { makeKeys } from '../../delivery/auth/keys.js';
import { CasetallyError } from '../../findings/errors.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeAll } from '../files.js';
import { jsonText, type Output } from '../output.js';

interface KeysFlags {
  readonly out: string;
  readonly algorithm: 'RS384' | 'ES384';
  readonly json?: boolean;
}

/**
 * Makes a key pair for SMART Backend Services: the private key for Casetally, and a JWKS file with the public keys for
 * the server. Public keys of an earlier JWKS in the folder are kept, so that both are known while keys change.
 */
export async function keys(flags: KeysFlags, output: Output): Promise<ExitCode> {
  const jwksPath = join(flags.out, 'jwks.json');
  const { keyId, privateJwk, jwks } = await makeKeys(flags.algorithm, await publicKeys(jwksPath));
  const name = `private-${keyId.slice(0, 12)}.json`;
  await writeAll(
    flags.out,
    { [name]: `${privateJwk}\n`, 'jwks.json': `${JSON.stringify(jwks, null, 2)}\n` },
    { mode: 0o600 },
  );
  const { algorithm } = flags;
  const path = join(flags.out, name);
  if (flags.json) output.out(jsonText({ keyId, algorithm, private: path, public: jwksPath }));
  else
    output.out(
      `Key ${keyId} (${algorithm})\n  private: ${path} (keep it to this machine; name it as key: file:PATH)\n  public:  ${jwksPath} (register it with the server)\n`,
    );
  return exitCodes.ok;
}

async function publicKeys(path: string): Promise<readonly JWK[]> {
  if (!existsSync(path)) return [];
  const read: unknown = JSON.parse(await readFile(path, 'utf8').catch(() => '{}'));
  const list = typeof read === 'object' && read !== null && 'keys' in read ? read.keys : undefined;
  if (!Array.isArray(list))
    throw new CasetallyError('settings-invalid', `${path} is no JWKS: move it away, or mend it.`);
  return list as JWK[];
}
