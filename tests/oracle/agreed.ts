import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const kept = join(import.meta.dirname, 'agreed.txt');

/** What the verdicts depend on: the validator, its tests, the texts and mutants, the explanations, the definitions. */
const places = ['src/conformance', 'tests/conformance', 'tests/oracle', 'profiles', 'vendor'];
const files = ['scripts/build-definitions.ts'];
/** Made by runs and builds, or the digest itself. */
const made = /(?:^|\/)(?:target|out|\.cache|compiled|agreed\.txt)(?:\/|$)/;

/** Digest of everything that the agreement with the reference depends on. */
export function digestOfAgreement(): string {
  const hash = createHash('sha256');
  const names = places.flatMap(place =>
    readdirSync(join(root, place), { recursive: true, withFileTypes: true })
      .filter(entry => entry.isFile())
      .map(entry => join(entry.parentPath, entry.name).slice(root.length + 1)),
  );
  for (const name of [...names, ...files].filter(name => !made.test(name)).sort())
    hash.update(`${name}\n`).update(readFileSync(join(root, name)));
  const { devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    devDependencies: Record<string, string>;
  };
  const packages = Object.entries(devDependencies).filter(([name]) => name.startsWith('hl7.'));
  return hash.update(JSON.stringify(packages)).digest('hex');
}

/** Whether the last whole run that agreed was over what is here now. */
export const agreedBefore = (): boolean => lines()[0] === digestOfAgreement();

/** Ids of the examples in which the reference found errors as they are: no mutants are made of them. */
export const uncleanBefore = (): ReadonlySet<string> => new Set(lines().slice(1));

/** After a whole run that agreed; the file is committed with what was changed. @param unclean `uncleanBefore` of the next runs */
export const keepAgreement = (unclean: readonly string[]): void =>
  writeFileSync(kept, `${[digestOfAgreement(), ...unclean].join('\n')}\n`);

const lines = (): string[] => (existsSync(kept) ? readFileSync(kept, 'utf8').trim().split('\n') : []);
