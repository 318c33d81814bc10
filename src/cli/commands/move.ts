import type { Outbox } from '../../delivery/outbox/outbox.js';
import { CasetallyError } from '../../findings/errors.js';
import type { SentBefore } from '../../pipeline/earlier.js';
import { checkMove, standingFor, withdrawalText } from '../../pipeline/move.js';
import { type OpenedSite, openBytes } from '../../pipeline/open-case.js';
import { caseKey, recordOf } from '../../pipeline/outbox-item.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { openReceiver } from '../../pipeline/receiver.js';
import { type SentCase, sendCase } from '../../pipeline/send-case.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Site } from '../../site/site.js';
import { type ExitCode, exitCodes, worstOf } from '../exit.js';
import { registerFeed } from '../feeding.js';
import { jsonText, type Output } from '../output.js';
import { openOutbox, processDeps, secretsFrom } from '../process.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { type CaseFile, openCase, picturesOf } from './open-case.js';
import { openSite } from './open-site.js';
import { openPrevious, preparedOf } from './prepared.js';
import { print, told } from './sent.js';

interface MoveFlags {
  readonly to?: string;
  readonly site?: string;
  readonly previous?: readonly string[];
  readonly by?: string;
  readonly why?: string;
  readonly data?: string;
  readonly json?: boolean;
}

/** One of the two halves of a move. */
interface Half {
  readonly what: 'withdrawn' | 'reported';
  readonly opened: CaseFile;
  readonly prepare: (site: Site, before: readonly SentBefore[]) => Promise<PreparedCase | undefined>;
}

/**
 * Moves a case to another patient: withdraws the old case under its own patient, and reports the new one, with a number of
 * its own, under the right one. Both are stored before anything is sent, so that neither is lost.
 */
export async function move(old: string, now: string, flags: MoveFlags, output: Output): Promise<ExitCode> {
  const { by, why, json } = flags;
  if (!by || !why)
    throw new CasetallyError('usage', 'to move a case say --by and --why: both stand in what is withdrawn.');
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const store = await openOutbox(flags.data);
  const feed = registerFeed(site, flags.data, output);
  try {
    const halves = await halvesOf(old, now, { ...flags, by, why }, site, store.outbox, output);
    if (!halves) return exitCodes.findings;
    const say = (sent: readonly SentCase[], { opened }: Half) => {
      if (!json) for (const one of sent) print(one, opened, store.path, output);
    };
    const send = async ({ opened, prepare }: Half, how: 'ready' | 'store' | 'deliver') => {
      const made = await sendCase(
        { checked: opened, site: site.site, to: flags.to, how },
        {
          prepare,
          receiver: name => openReceiver(site, name),
          secrets: secretsFrom(site.folder),
          process: { ...processDeps(flags.data), alsoWrote: feed.alsoWrote },
          outbox: async () => feed.of(store.outbox),
        },
      );
      if (made.unusable.length > 0) output.err(findingsText(flags.site ?? '--to', made.unusable, output));
      return made;
    };
    // Nothing is stored before both can be sent: a withdrawal alone would leave the case nowhere.
    for (const how of ['ready', 'store'] as const)
      for (const half of halves) {
        const { sent, unusable } = await send(half, how);
        if (unusable.length > 0) return exitCodes.usage;
        const held = sent.filter(({ kind }) => kind === 'not-sent');
        if (held.length === 0) continue;
        say(held, half);
        return worstOf(held.map(({ code }) => code));
      }
    const results: [Half['what'], readonly SentCase[]][] = [];
    for (const half of halves) {
      output.progress?.(`Sending what is ${half.what}`);
      if (!json) output.out(`${WHAT[half.what]}\n`);
      const { sent } = await send(half, 'deliver');
      say(sent, half);
      results.push([half.what, sent]);
    }
    await feed.carryOut(flags, store.outbox);
    if (json) output.out(jsonText(Object.fromEntries(results.map(([what, sent]) => [what, sent.map(told)]))));
    return worstOf(results.flatMap(([, sent]) => sent.map(({ code }) => code)));
  } finally {
    await store.outbox.close();
    await feed.close();
  }
}

const WHAT: Readonly<Record<Half['what'], string>> = {
  withdrawn: 'The old case, entered in error under its own patient:',
  reported: 'The new case, under the right patient:',
};

/** Both halves, each looked at before the other is stored; undefined, and that is said, where one cannot be sent. */
async function halvesOf(
  old: string,
  now: string,
  { by, why, previous }: MoveFlags & { readonly by: string; readonly why: string },
  site: OpenedSite,
  outbox: Outbox,
  output: Output,
): Promise<Half[] | undefined> {
  const [before, after] = [await openCase(old, site), await openCase(now, site)];
  for (const one of [before, after]) {
    if (one.record) continue;
    const verdict = 'the record must be readable as a whole. Nothing was stored or sent';
    output.err(findingsText(one.file, one.findings, output, { verdict, ...ownLines(output, one.bytes) }));
    return undefined;
  }
  if (!before.record || !before.assessment || !after.record) return undefined;
  checkMove(before.record, after.record, { by });
  const given = await openPrevious(previous ?? [], site, output);
  if (!given) return undefined;
  const text = Buffer.from(before.bytes).toString('utf8');
  if (!Buffer.from(after.bytes).toString('utf8').includes(before.record.case.id))
    output.err(
      `${now}: the report itself does not name case ${before.record.case.id}, for which it stands; only its account of origin will.\n`,
    );
  const at = new Date().toISOString().slice(0, 19).concat('Z');
  const begun = await withdrawnBefore(before.record, site, outbox);
  const next = begun ?? withdrawalText(text, before.record, after.record, { by, at, why });
  const withdrawal: CaseFile = { ...(await openBytes(Buffer.from(next, 'utf8'), site)), file: old };
  const { record, assessment } = before;
  const pictures = await picturesOf(before);
  const sent: EarlierVersion[] = [...given, { record, assessment, pictures }];
  return [
    {
      what: 'withdrawn',
      opened: withdrawal,
      prepare: (own, found) => preparedOf(withdrawal, { ...site, site: own }, sent, found),
    },
    {
      what: 'reported',
      opened: after,
      prepare: async (own, found) => {
        const made = await preparedOf(after, { ...site, site: own }, [], found);
        return made && standingFor(made, record);
      },
    },
  ];
}

/** The withdrawal of a case that the outbox has already, from a move that was begun: its time is not told anew. */
async function withdrawnBefore(
  old: CaseRecord,
  site: OpenedSite,
  outbox: Outbox,
): Promise<string | undefined> {
  const items = await outbox.list({ caseKey: caseKey(old, site.site.namespace) });
  for (const item of items.toReversed()) {
    const text = item.state === 'discarded' ? undefined : recordOf(item);
    const record = text === undefined ? undefined : (await openBytes(Buffer.from(text, 'utf8'), site)).record;
    if (record?.report.status === 'withdrawn') return text;
  }
  return undefined;
}
