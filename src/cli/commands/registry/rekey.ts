import { sealingWith } from '../../../delivery/outbox/sealing.js';
import { CasetallyError } from '../../../findings/errors.js';
import { registryKey } from '../../../pipeline/registry/key.js';
import { heldToRing } from '../../../pipeline/registry/key-ring.js';
import { type PseudonymPair, pseudonymPairs } from '../../../pipeline/registry/rekey.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { readBytes, writeOne } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { secretsFrom } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import { type RegistryFlags, withRegistry } from './open.js';

interface RekeyFlags extends RegistryFlags {
  readonly out?: string;
  readonly read?: string;
  readonly seal: string;
}

const ABOUT = 'table of pseudonyms';

/**
 * Writes a table of old and new pseudonyms for the registry, sealed with a key that both agreed on; or prints one. The
 * table says which pseudonyms are one person, and nothing of who that is.
 */
export function rekeyRegistry(flags: RekeyFlags, output: Output): Promise<ExitCode> {
  return withRegistry(flags, output, async ({ site, registry, submissions }) => {
    const secret = secretsFrom(site.folder)(flags.seal);
    if (secret === undefined)
      throw new CasetallyError(
        'usage',
        `--seal ${flags.seal}: there is no key. Make one that the registry gets too, as 'openssl rand -base64 32' gives, and name it as env:NAME or file:PATH.`,
      );
    const sealing = sealingWith([secret.trim()]);
    if (flags.read !== undefined) {
      const sealed = Buffer.from(await readBytes(flags.read)).toString('utf8');
      output.out(`${sealing.open(sealed.trim(), ABOUT)}\n`);
      return exitCodes.ok;
    }
    const { name, options, key } = registry;
    if (flags.out === undefined)
      throw new CasetallyError('usage', 'name a file with --out, or one with --read.');
    if (options.formerKeys.length === 0)
      throw new CasetallyError(
        'settings-invalid',
        `registry '${name}' has no former secret: list it under registries.${name}.formerKeys in the site configuration.`,
      );
    await heldToRing(name, key, options, submissions, Date.now());
    const pairs: PseudonymPair[] = [];
    for (const former of options.formerKeys) {
      const opened = await registryKey(name, { ...options, ...former }, site.folder);
      pairs.push(...(await pseudonymPairs(name, opened.key, key, submissions)));
    }
    const table = { registry: name, to: key.id, pseudonyms: pairs };
    await writeOne(flags.out, `${sealing.seal(JSON.stringify(table), ABOUT)}\n`);
    if (flags.json) output.out(jsonText({ registry: name, out: flags.out, pseudonyms: pairs.length }));
    else
      output.out(
        filled(
          `${counted(pairs.length, 'pseudonym', 'pseudonyms')} of ${name} with the one that takes its place, sealed in ${flags.out}.`,
          output.columns,
        ),
      );
    return exitCodes.ok;
  });
}
