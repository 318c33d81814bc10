import { verifyBytes } from '../../pipeline/signing.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { readBytes } from '../files.js';
import { jsonText, type Output } from '../output.js';

interface VerifyFlags {
  readonly jws: string;
  readonly key: string;
  readonly json?: boolean;
}

/** Says whether a document is, byte for byte, the one that a site key signed: 0 when it is, 1 when not. */
export async function verify(file: string, flags: VerifyFlags, output: Output): Promise<ExitCode> {
  const [document, jws, key] = await Promise.all([file, flags.jws, flags.key].map(path => readBytes(path)));
  if (!document || !jws || !key) return exitCodes.usage;
  const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('utf8');
  const verdict = await verifyBytes(document, text(jws), jsonOf(text(key)));
  if (flags.json) output.out(jsonText(verdict));
  else if (verdict.valid)
    output.out(`${file}: signed with key ${verdict.keyId ?? '(without an id)'}, ${verdict.algorithm}\n`);
  else output.err(`${file}: not verified: ${verdict.why}.\n`);
  return verdict.valid ? exitCodes.ok : exitCodes.findings;
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
