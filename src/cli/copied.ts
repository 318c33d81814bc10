import { type ExitCode, exitCodes } from './exit.js';
import { jsonText, type Output } from './output.js';
import { filled } from './terminal/fill.js';

/** Flags of a command that copies a store or puts a copy back. */
export interface CopyFlags {
  readonly data?: string;
  readonly json?: boolean;
}

/** Tells of a store that was copied: as JSON what it has, else the new file and what there is to know about it. */
export function copied(
  from: string,
  to: string,
  has: Readonly<Record<string, string | number>>,
  text: string,
  { json }: CopyFlags,
  output: Output,
): ExitCode {
  output.out(json ? jsonText({ from, to, ...has }) : filled(`${to}: ${text}`, output.columns));
  return exitCodes.ok;
}
