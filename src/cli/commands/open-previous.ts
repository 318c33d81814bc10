import type { EarlierVersion } from '../../pipeline/versions.js';
import { findingLines, type Output } from '../output.js';
import { type OpenedSite, openCase } from './open-case.js';

/** Opens the earlier versions of `--previous`; says what is wrong and gives undefined when one cannot be read whole. */
export async function openPrevious(
  files: readonly string[],
  site: OpenedSite,
  output: Output,
): Promise<EarlierVersion[] | undefined> {
  const versions: EarlierVersion[] = [];
  for (const file of files) {
    const { record, assessment, parsed } = await openCase(file, site);
    if (!record || !assessment) {
      output.err(findingLines(parsed.findings, file, output.color));
      output.err(
        `\n${file}: the earlier version must be readable as a whole. Nothing was written or sent.\n`,
      );
      return undefined;
    }
    versions.push({ record, assessment });
  }
  return versions;
}
