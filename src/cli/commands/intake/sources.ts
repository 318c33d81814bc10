import { CasetallyError } from '../../../findings/errors.js';
import { stops } from '../../../findings/finding.js';
import type { Sources } from '../../../pipeline/intake/bring-in.js';
import { kitFile, kitsNamed } from '../../../pipeline/intake/kits.js';
import type { OpenedSite } from '../../../pipeline/open-case.js';
import type { Output } from '../../output.js';
import { findingsText } from '../../terminal/findings.js';

/** Where the values of a command come from. */
export interface SourceFlags {
  readonly kit?: readonly string[];
}

/**
 * Reads everything that the flags name. Each further kind of source has its lines here, and gives contributions.
 * @returns undefined where something cannot be read; that is said
 */
export async function contributionsOf(
  flags: SourceFlags,
  site: OpenedSite,
  output: Output,
): Promise<Sources | undefined> {
  const kits = await Promise.all(
    (flags.kit ?? []).map(async name =>
      /[/\\]|\.(?:ya?ml|json)$/i.test(name) ? [await kitFile(name)] : await kitsNamed([name], site),
    ),
  );
  const files = kits.flat();
  for (const { file, findings } of files) output.err(findingsText(file, findings, output));
  if (files.some(({ kit, findings }) => !kit || findings.some(stops))) return undefined;
  return { contributions: [], kits: files.flatMap(({ kit }) => kit ?? []) };
}

/** @throws CasetallyError `usage` where nothing is to be brought in */
export function needsSource(flags: SourceFlags): void {
  if ((flags.kit ?? []).length === 0)
    throw new CasetallyError('usage', 'Name what is to be brought in: --kit.');
}
