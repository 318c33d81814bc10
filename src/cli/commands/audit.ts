import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import type { AuditEvent } from 'fhir/r4.js';
import { canonicalJson, type Head, headText, readHead } from '../../audit/chain.js';
import { CHAIN } from '../../audit/event.js';
import { copyAudit } from '../../audit/store/copies.js';
import type { AuditTrail, TrailFilter } from '../../audit/trail.js';
import { exportedEntries, type KeptEntry, type TrailVerdict, verifyTrail } from '../../audit/verify.js';
import { CasetallyError, reason } from '../../findings/errors.js';
import { isCalendarDate } from '../../record/time.js';
import { copied } from '../copied.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { counted, jsonText, type Output } from '../output.js';
import { auditFile, openAudit } from '../process.js';

interface AuditFlags {
  readonly data?: string;
  readonly json?: boolean;
  readonly head?: string;
  readonly from?: string;
  readonly to?: string;
  readonly who?: string;
}

/** Says whether the trail, or an export of the whole of it, is as it was written. */
export async function verify(file: string | undefined, flags: AuditFlags, output: Output): Promise<ExitCode> {
  const known = flags.head === undefined ? undefined : readHead(flags.head);
  if (flags.head !== undefined && !known)
    throw new CasetallyError(
      'usage',
      '--head is a number, a colon and 64 digits, as casetally audit head prints it.',
    );
  const verdict = await (file === undefined
    ? withTrail(flags, trail => verifyTrail(trail.kept(), known))
    : verifyTrail(exportedLines(file), known));
  if (flags.json) output.out(jsonText(verdict));
  else output.out(`${said(verdict, known)}\n`);
  return verdict.sound ? exitCodes.ok : exitCodes.findings;
}

function said(verdict: TrailVerdict, known: Head | undefined): string {
  if (!verdict.sound) return `Broken at entry ${verdict.n}: ${verdict.why}.`;
  const head = verdict.head ? headText(verdict.head) : 'no entry';
  return `Sound: ${head}.${known ? '' : ' Whether its end was cut off is told by --head alone.'}`;
}

async function* exportedLines(file: string): AsyncGenerator<KeptEntry> {
  const lines: string[] = [];
  try {
    for await (const line of createInterface({ input: createReadStream(file, 'utf8') })) lines.push(line);
  } catch (error) {
    throw new CasetallyError('file-unreadable', `${file} cannot be read: ${reason(error)}.`, {
      cause: error,
    });
  }
  yield* exportedEntries(lines);
}

/** Prints the head; nothing where there is no entry. */
export function head(flags: AuditFlags, output: Output): Promise<ExitCode> {
  return withTrail(flags, async trail => {
    const last = await trail.head();
    if (flags.json) output.out(jsonText(last ?? null));
    else if (last) output.out(`${headText(last)}\n`);
    return exitCodes.ok;
  });
}

/** One line for each entry: when, who, what, how it ended, from where, and ids. */
export function list(flags: AuditFlags, output: Output): Promise<ExitCode> {
  const filter = filterOf(flags);
  return withTrail(flags, async trail => {
    const rows = [];
    for await (const event of trail.events(filter)) {
      const row = rowOf(event);
      if (flags.json) rows.push(row);
      else output.out(`${Object.values(row).flat().join('  ')}\n`);
    }
    if (flags.json) output.out(jsonText(rows));
    return exitCodes.ok;
  });
}

/** The entries as they are hashed: canonical JSON, one a line. */
export function exportTrail(flags: AuditFlags, output: Output): Promise<ExitCode> {
  const filter = filterOf(flags);
  return withTrail(flags, async trail => {
    for await (const event of trail.events(filter)) output.out(`${canonicalJson(event)}\n`);
    return exitCodes.ok;
  });
}

/** Copies the trail to a file while entries are added. */
export function backup(flags: AuditFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  return copy(auditFile(flags.data), flags.to, flags, output);
}

/** Puts a backup into the data folder, where there must be no trail. */
export function restore(file: string, flags: AuditFlags, output: Output): Promise<ExitCode> {
  return copy(file, auditFile(flags.data), flags, output);
}

async function copy(from: string, to: string, flags: AuditFlags, output: Output): Promise<ExitCode> {
  const { entries, head } = await copyAudit(from, to);
  const end = head && headText(head);
  const text = `${counted(entries, 'entry', 'entries')}${end ? `, up to ${end}` : ''}. It names people, sealed as the trail is; keep the keys elsewhere.`;
  return copied(from, to, { entries, ...(end && { head: end }) }, text, flags, output);
}

async function withTrail<T>({ data }: AuditFlags, work: (trail: AuditTrail) => Promise<T>): Promise<T> {
  const { trail } = await openAudit(data);
  try {
    return await work(trail);
  } finally {
    await trail.close();
  }
}

function rowOf({ recorded, agent, type, subtype, outcomeDesc, entity }: AuditEvent) {
  const [who] = agent;
  return {
    at: recorded,
    who: who?.name ?? '-',
    what: `${type.display ?? ''}: ${subtype?.[0]?.display ?? ''}`,
    outcome: outcomeDesc ?? '-',
    from: who?.network?.address ?? '-',
    about: (entity ?? []).flatMap(one => (one.name === CHAIN ? [] : [one.what?.identifier?.value ?? '-'])),
  };
}

function filterOf({ from, to, who }: AuditFlags): TrailFilter {
  return {
    ...(from !== undefined && { from: timeOf('--from', from) }),
    // A day is meant with all of it.
    ...(to !== undefined && { to: timeOf('--to', to) + (isCalendarDate(to) ? 86_400_000 : 0) }),
    ...(who !== undefined && { who }),
  };
}

function timeOf(flag: string, text: string): number {
  const ms = isCalendarDate(text)
    ? Date.parse(`${text}T00:00:00Z`)
    : /^\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d)$/.test(text)
      ? Date.parse(text)
      : Number.NaN;
  if (Number.isNaN(ms))
    throw new CasetallyError(
      'usage',
      `${flag} ${text} is no day and no time: write 2026-03-01 or 2026-03-01T08:00Z.`,
    );
  return ms;
}
