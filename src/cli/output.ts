import { findingRows } from '../findings/finding.js';
import type { Language } from '../findings/languages.js';
import { columnsOf } from './terminal/fill.js';
import { progressOn } from './terminal/progress.js';
import { escapedInJson, guarded } from './terminal/shown.js';

/** Where a command writes: injected, so that tests read what a person would see. */
export interface Output {
  /** Results. */
  out(text: string): void;
  /** Results that are no text; absent where a person looks at a terminal. */
  bytes?(bytes: Uint8Array): void;
  /** Everything else. */
  err(text: string): void;
  readonly color: boolean;
  /** How wide lines may be; 80 when absent. */
  readonly columns?: number;
  /** True where a person sees standard error; elsewhere it may be kept as a log, and no line of a record goes there. */
  readonly watched?: boolean;
  /** Says what is being done, where a person waits for it. */
  progress?(doing: string): void;
  /** The command has ended. */
  done?(): void;
  /** screen: the worst findings, no more than a screen; all: every one, with its basis. Absent: every one but notes. */
  readonly detail?: 'screen' | 'all';
  /** Of what is said; English (UK) when absent. */
  readonly language?: Language;
}

/** What of a stream and its process decides how is written. */
interface Streams {
  readonly stdout: Pick<NodeJS.WriteStream, 'write'> & Partial<Pick<NodeJS.WriteStream, 'isTTY' | 'columns'>>;
  readonly stderr: Pick<NodeJS.WriteStream, 'write'> & Partial<Pick<NodeJS.WriteStream, 'isTTY' | 'columns'>>;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/** The process's own streams. What goes to a terminal cannot act on it, colours aside. */
export function processOutput({ stdout, stderr, env }: Streams = process): Output {
  const columns = columnsOf(env['COLUMNS'], stdout.columns || stderr.columns);
  const write = (stream: Streams['stdout']) => (text: string) =>
    void stream.write(stream.isTTY ? guarded(text) : text);
  const watched = stderr.isTTY === true;
  const progress = watched ? progressOn(text => void stderr.write(text), columns) : undefined;
  const before = (to: (text: string) => void) => (text: string) => {
    progress?.clear();
    to(text);
  };
  return {
    out: before(write(stdout)),
    ...(stdout.isTTY !== true && { bytes: (data: Uint8Array) => void stdout.write(data) }),
    err: before(write(stderr)),
    color: colored(stdout.isTTY === true && watched, env),
    columns,
    watched,
    ...(progress && { progress: (doing: string) => progress.say(doing), done: () => progress.clear() }),
  };
}

/** `NO_COLOR` and `FORCE_COLOR` decide; else colours go to a terminal alone, and to one that has them. */
function colored(terminal: boolean, env: Streams['env']): boolean {
  if (env['NO_COLOR']) return false;
  const forced = env['FORCE_COLOR'];
  if (forced !== undefined && forced !== '') return forced !== '0' && forced !== 'false';
  return terminal && env['TERM'] !== 'dumb';
}

/** What the flags of a command that shows findings say of how it shows them. */
export interface Shown {
  readonly verbose?: boolean;
  readonly language?: Language;
}

/** The output of a command that shows findings: a screen of them unless `--verbose`. */
export function outputFor(output: Output, { verbose, language }: Shown): Output {
  return { ...output, detail: verbose ? 'all' : 'screen', ...(language && { language }) };
}

/** The same without word of what is being done: nobody reads it beside JSON. */
export function withoutProgress({ progress: _, ...output }: Output): Output {
  return output;
}

/** `1 entry`, `2 entries`. */
export const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** Two-space JSON with a final newline; findings have their English text. */
export function jsonText(value: unknown): string {
  return `${escapedInJson(JSON.stringify(value, findingRows, 2))}\n`;
}
