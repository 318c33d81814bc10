import { randomBytes } from 'node:crypto';
import { CasetallyError } from '../../findings/errors.js';
import { tokenDigest } from '../../service/api/guard.js';
import { type Right, TOKEN_NAME } from '../../site/service.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';

interface TokenFlags {
  readonly rights: readonly Right[];
  readonly json?: boolean;
}

/** Makes a token for the service. It is shown once; the site configuration gets its digest alone. */
export function newToken(name: string, { rights, json }: TokenFlags, output: Output): ExitCode {
  if (!TOKEN_NAME.test(name))
    throw new CasetallyError(
      'usage',
      'the name of a token is a letter, then letters, digits, _ or -, 40 at most: it stands in the log beside what was done.',
    );
  const token = randomBytes(32).toString('base64url');
  const sha256 = tokenDigest(token).toString('hex');
  const own = [...new Set(rights)];
  if (json) output.out(jsonText({ name, token, sha256, rights: own }));
  else
    output.out(
      `Token of ${name}, shown this once and kept nowhere:\n\n  ${token}\n\n` +
        'For the site configuration; the service knows it after its next start:\n\n' +
        `service:\n  tokens:\n    ${name}: { sha256: ${sha256}, rights: [${own.join(', ')}] }\n`,
    );
  return exitCodes.ok;
}
