import { text as streamText } from 'node:stream/consumers';
import { CasetallyError } from '../../../findings/errors.js';
import type { Finding } from '../../../findings/finding.js';
import { openBytes } from '../../../pipeline/open-case.js';
import { type TakenIn, takeCase } from '../../../pipeline/register/take.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { countLine } from '../../terminal/counts.js';
import { filled } from '../../terminal/fill.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { readCases } from '../case-files.js';
import { type RegisterFlags, withRegister } from './open.js';

interface TakeFlags extends RegisterFlags {
  /** Numbering system of the case numbers, for cases from elsewhere. */
  readonly system?: string;
}

interface TakenFile extends Omit<TakenIn, 'taken'> {
  readonly file: string;
  readonly isNew: boolean;
}

/** Takes cases into the register: files, folders of them, or one from standard input. */
export function take(places: readonly string[], flags: TakeFlags, output: Output): Promise<ExitCode> {
  if (flags.system !== undefined && !/^(urn:|https?:\/\/)\S+$/.test(flags.system))
    throw new CasetallyError('usage', '--system is the address of a numbering system: urn:… or https://…');
  return withRegister(flags, output, async ({ register, site, path }) => {
    const files: TakenFile[] = [];
    const one = async (bytes: Uint8Array, file: string) => {
      output.progress?.(`Taking in ${file}`);
      const opened = await openBytes(bytes, site, Date.now());
      const made = await takeCase(opened, site.site, register, Date.now(), flags.system);
      const { taken: _taken, ...told } = made;
      files.push({ file, isNew: made.fate === 'taken', ...told });
      if (!flags.json) output.err(findingsText(file, made.findings, output, ownLines(output, opened.bytes)));
      return true;
    };
    if (places.includes('-')) await one(Buffer.from(await streamText(process.stdin), 'utf8'), '-');
    const { unread, passedOver } = await readCases(
      places.filter(place => place !== '-'),
      one,
    );
    if (flags.json) output.out(jsonText({ register: path, files, unread, passedOver }));
    else {
      for (const { file, problem } of unread) output.err(filled(`${file}: ${problem}`, output.columns));
      output.out(filled(verdictOf(files, unread.length, passedOver), output.columns, '', '  '));
    }
    return exitOf(files, unread.length);
  });
}

function verdictOf(files: readonly TakenFile[], unread: number, passedOver: number): string {
  const count = (fate: TakenIn['fate']) => files.filter(file => file.fate === fate).length;
  const said: Finding[] = files.flatMap(({ findings }) => findings);
  const unreadable = count('unreadable') + unread;
  return [
    `${counted(count('taken'), 'case', 'cases')} taken in`,
    ...(count('known') > 0 ? [`${count('known')} known already`] : []),
    ...(count('held back') > 0 ? [`${count('held back')} held back`] : []),
    ...(unreadable > 0 ? [`${counted(unreadable, 'file', 'files')} not readable as a whole case`] : []),
    ...(passedOver > 0 ? [`${counted(passedOver, 'file', 'files')} of other kinds passed over`] : []),
    countLine(said),
  ].join('; ');
}

/** 2 where a file is no case, 1 where something is held back or for a person to decide. */
function exitOf(files: readonly TakenFile[], unread: number): ExitCode {
  if (unread > 0 || files.some(({ fate }) => fate === 'unreadable')) return exitCodes.usage;
  const open = files.some(
    ({ fate, findings }) => fate === 'held back' || findings.some(({ severity }) => severity === 'warning'),
  );
  return open ? exitCodes.findings : exitCodes.ok;
}
