import type { EarlierVersion } from '../../pipeline/versions.js';
import { placed } from '../../record/parse.js';
import { findingLines, type Output } from '../output.js';
import { type OpenedSite, openCase, picturesOf } from './open-case.js';

/** Opens the earlier versions of `--previous`; says what is wrong and gives undefined when one cannot be read whole. */
export async function openPrevious(
  files: readonly string[],
  site: OpenedSite,
  output: Output,
): Promise<EarlierVersion[] | undefined> {
  const versions: EarlierVersion[] = [];
  for (const file of files) {
    const opened = await openCase(file, site);
    const { record, assessment, parsed } = opened;
    if (!record || !assessment) {
      output.err(findingLines(parsed.findings, file, output.color));
      output.err(
        `\n${file}: the earlier version must be readable as a whole. Nothing was written or sent.\n`,
      );
      return undefined;
    }
    const pictures = await picturesOf(opened);
    output.err(findingLines(placed(pictures.findings, parsed.locate), file, output.color));
    versions.push({ record, assessment, pictures });
  }
  return versions;
}
