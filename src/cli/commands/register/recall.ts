import { recallLines } from '../../../pipeline/register/recall-lines.js';
import type { PersonNumber } from '../../../register/facts.js';
import { affectedBy, answerText } from '../../../register/recall-drafts.js';
import type { RecallHit } from '../../../register/store/register.js';
import { CAUTION } from '../../about.js';
import type { ExitCode } from '../../exit.js';
import { readBytes } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { csv } from '../../terminal/csv.js';
import { filled, table } from '../../terminal/fill.js';
import { exitOfList, type RegisterFlags, withRegister } from './open.js';
import { refuseDrafts, writeDrafts } from './recall-drafts.js';

interface RecallFlags extends RegisterFlags {
  /** Also names the patients by number, for those who contact them. */
  readonly contacts?: boolean;
  /** Folder for drafts. */
  readonly drafts?: string;
}

/** Who carries, or carried, what a recall names. Nothing is sent to anybody. */
export function recall(file: string, flags: RecallFlags, output: Output): Promise<ExitCode> {
  if (flags.drafts !== undefined) refuseDrafts(flags.drafts);
  return withRegister(flags, output, async ({ register, site }) => {
    const lines = recallLines(Buffer.from(await readBytes(file)).toString('utf8'), file);
    output.progress?.(`Looking up ${lines.length} lines`);
    const hits = await register.recall(lines);
    const without = await register.insideWithoutIdentifier();
    const numbers = new Map<string, readonly PersonNumber[]>();
    if (flags.contacts || flags.drafts !== undefined)
      for (const id of new Set(hits.map(({ use }) => use.person)))
        numbers.set(id, (await register.person(id))?.numbers ?? []);
    const patient = ({ use }: RecallHit) => numbers.get(use.person) ?? [];
    const rows = hits.map(hit => {
      const { person: _person, ...use } = hit.use;
      return { ...hit, use, ...(flags.contacts && { patient: patient(hit) }) };
    });
    const drafts =
      flags.drafts === undefined
        ? undefined
        : {
            folder: flags.drafts,
            files: await writeDrafts(
              flags.drafts,
              affectedBy(hits, person => numbers.get(person) ?? []),
              site.site.namespace,
            ),
          };
    const head = [
      'line',
      'answer',
      'use',
      'what',
      'since',
      'not known',
      ...(flags.contacts ? ['patient'] : []),
    ];
    const cells = hits.map(hit => [
      `${hit.line}`,
      answerText[hit.answer],
      hit.use.id,
      hit.use.name,
      hit.use.placed ?? 'not known',
      hit.unknown.join(', '),
      ...(flags.contacts
        ? [
            patient(hit)
              .map(({ value }) => value)
              .join(' '),
          ]
        : []),
    ]);
    if (flags.json)
      output.out(jsonText({ lines: lines.length, hits: rows, insideWithoutIdentifier: without, drafts }));
    else if (flags.csv) output.out(csv([head, ...cells]));
    else {
      output.out(filled(verdictOf(lines.length, hits, without), output.columns));
      if (drafts)
        output.out(
          filled(
            `Drafts in ${drafts.folder}: ${drafts.files.join(', ')}. They name patients, none of them is active, and nothing was sent: a person decides whether, whom and how to tell.`,
            output.columns,
          ),
        );
      if (cells.length > 0) output.out(table([head, ...cells], output.columns));
      output.out(filled(CAUTION, output.columns));
    }
    return exitOfList(hits, flags);
  });
}

function verdictOf(lines: number, hits: readonly RecallHit[], without: number): string {
  const count = (answer: RecallHit['answer']) => hits.filter(hit => hit.answer === answer).length;
  const rest =
    without === 0
      ? ''
      : ` ${counted(without, 'device', 'devices')} inside ${without === 1 ? 'has' : 'have'} no identifier, so no recall by identifier alone can find ${without === 1 ? 'it' : 'them'}.`;
  return `${counted(lines, 'line', 'lines')}: ${count('carries now')} carried now, ${count('carried')} carried in the past, ${count('perhaps')} that cannot be excluded.${rest}`;
}
