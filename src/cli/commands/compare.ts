import { say } from '../../findings/say.js';
import { type ChangedFact, changeRow, compareRecords } from '../../record/changes/compare.js';
import type { WordChange } from '../../record/changes/words.js';
import { recordDigest } from '../../record/digest.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { counted, jsonText, type Output } from '../output.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { openCase } from './open-case.js';
import { openSite } from './open-site.js';

interface CompareFlags {
  readonly site?: string;
  readonly json?: boolean;
}

/** Prints the facts that two versions of a record tell differently: 0 when both could be read, however much differs. */
export async function compare(
  oldFile: string,
  newFile: string,
  flags: CompareFlags,
  output: Output,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const before = await openCase(oldFile, site);
  const after = await openCase(newFile, site);
  if (!before.record || !after.record) {
    for (const opened of [before, after])
      if (!opened.record)
        output.err(findingsText(opened.file, opened.parsed.findings, output, ownLines(output, opened.bytes)));
    output.err('Nothing was compared: both records must be readable as a whole first.\n');
    return exitCodes.usage;
  }
  const changes = compareRecords(before.record, after.record);
  if (flags.json)
    output.out(
      jsonText({
        old: { file: oldFile, digest: recordDigest(before.record) },
        new: { file: newFile, digest: recordDigest(after.record) },
        changes: changes.map(changeRow),
      }),
    );
  else {
    output.out(changes.map(changeText).join(''));
    output.out(
      changes.length === 0
        ? 'Both tell the same.\n'
        : `${counted(changes.length, 'fact differs', 'facts differ')}.\n`,
    );
  }
  return exitCodes.ok;
}

/** One changed fact, on lines of its own: values may be long. */
function changeText({ kind, path, was, what, before, after, words }: ChangedFact): string {
  const mark = { added: '+', removed: '-', changed: '~' }[kind];
  const lines = [
    `${mark} ${say(what)}  (${was === undefined ? path : `${path}, was ${was}`})`,
    ...(words
      ? [`    ${wordsText(words)}`]
      : [
          ...(before === undefined ? [] : [`    before: ${say(before)}`]),
          ...(after === undefined ? [] : [`    after:  ${say(after)}`]),
        ]),
  ];
  return lines.map(line => `${line}\n`).join('');
}

/** `two drains` struck and `one drain` added, as `[-two drains-] {+one drain+}`. */
function wordsText(words: readonly WordChange[]): string {
  return words
    .map(({ kind, text }) => (kind === 'same' ? text : kind === 'struck' ? `[-${text}-]` : `{+${text}+}`))
    .join(' ');
}
