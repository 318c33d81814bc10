import { randomUUID } from 'node:crypto';
import { dayAt } from '../../../drafts/head.js';
import { moveDraft, standsAgainst } from '../../../drafts/save.js';
import { copyDrafts } from '../../../drafts/store/copies.js';
import { messageOf } from '../../../findings/finding.js';
import { decodeUtf8 } from '../../../record/read.js';
import { copied } from '../../copied.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { readBytes } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { draftsFile } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import { openSite } from '../open-site.js';
import { type DraftFlags, draftOf, lineIn, withDrafts } from './open.js';

interface SiteFlags extends DraftFlags {
  readonly site?: string;
}

/** Begins a draft from a record: 1 where the text is no record. */
export async function importDraft(
  file: string,
  flags: SiteFlags & { readonly by: string },
  output: Output,
): Promise<ExitCode> {
  const by = lineIn('--by', flags.by);
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const read = decodeUtf8(await readBytes(file));
  const findings = 'text' in read ? standsAgainst(read.text) : [read.finding];
  if (!('text' in read) || findings.length > 0) {
    if (flags.json) output.out(jsonText({ findings }));
    else for (const one of findings) output.err(filled(`${file}: ${messageOf(one)}`, output.columns));
    return exitCodes.findings;
  }
  const { text } = read;
  return withDrafts(flags, async drafts => {
    const at = Date.now();
    const day = dayAt(at, site.site.timeZone);
    const { id } = await drafts.begin(randomUUID(), day, { text, by, at, state: 'open', edits: [], base: 0 });
    output.out(flags.json ? jsonText({ id, version: 1 }) : filled(`Draft ${id} was begun.`, output.columns));
    return exitCodes.ok;
  });
}

/** Discards a draft, with who and why: 1 where it was taken in or discarded already. */
export function discard(
  id: string,
  flags: DraftFlags & { readonly by: string; readonly why: string },
  output: Output,
): Promise<ExitCode> {
  const [by, why] = [lineIn('--by', flags.by), lineIn('--why', flags.why)];
  return withDrafts(flags, async drafts => {
    const { version: base } = await draftOf(drafts, id);
    const moved = await moveDraft(drafts, { id, base, by, at: Date.now() }, 'discarded', { why });
    const said =
      moved.kind === 'moved'
        ? `Draft ${id} is discarded; it is kept until casetally drafts purge erases it.`
        : moved.kind === 'not so'
          ? `Draft ${id} is ${moved.state}; nothing was changed.`
          : `Draft ${id} was changed at the same moment; nothing was discarded.`;
    output.out(flags.json ? jsonText({ id, ...moved }) : filled(said, output.columns));
    return moved.kind === 'moved' ? exitCodes.ok : exitCodes.findings;
  });
}

const DAY = 86_400_000;

/** Erases what was discarded or taken in longer ago than the site keeps it. */
export async function purge(flags: SiteFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const { discardedDays, takenInDays } = site.site.drafts;
  return withDrafts(flags, async drafts => {
    const now = Date.now();
    const removed = await drafts.purge({
      discarded: now - discardedDays * DAY,
      takenIn: now - takenInDays * DAY,
    });
    output.out(flags.json ? jsonText({ removed }) : `${counted(removed, 'draft', 'drafts')} erased.\n`);
    return exitCodes.ok;
  });
}

/** Copies the drafts to a file while they go on being entered. */
export function backup(flags: DraftFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  return copy(draftsFile(flags.data), flags.to, flags, output);
}

/** Puts a backup into the data folder, where there must be no drafts. */
export function restore(file: string, flags: DraftFlags, output: Output): Promise<ExitCode> {
  return copy(file, draftsFile(flags.data), flags, output);
}

async function copy(from: string, to: string, flags: DraftFlags, output: Output): Promise<ExitCode> {
  const versions = await copyDrafts(from, to);
  const text = `${counted(versions, 'version of a draft', 'versions of drafts')}, checked. It holds patient data, sealed as the drafts are; keep the keys elsewhere.`;
  return copied(from, to, { versions }, text, flags, output);
}
