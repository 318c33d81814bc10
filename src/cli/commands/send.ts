import type { Acceptance } from '../../delivery/patient/accept.js';
import { CasetallyError } from '../../findings/errors.js';
import { openReceiver } from '../../pipeline/receiver.js';
import { sendCase } from '../../pipeline/send-case.js';
import { type ExitCode, exitCodes, worstOf } from '../exit.js';
import { registerFeed } from '../feeding.js';
import { jsonText, type Output } from '../output.js';
import { openOutbox, processDeps, secretsFrom } from '../process.js';
import { filled } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { openCase } from './open-case.js';
import { openSite } from './open-site.js';
import { openPrevious, preparedOf, signed } from './prepared.js';
import { print, told } from './sent.js';

interface SendFlags {
  readonly to?: string;
  readonly site?: string;
  readonly previous?: readonly string[];
  readonly sign?: string;
  readonly data?: string;
  readonly direct?: boolean;
  readonly overwrite?: boolean;
  readonly dryRun?: boolean;
  readonly accept?: readonly string[];
  readonly by?: string;
  readonly why?: string;
  readonly json?: boolean;
}

/**
 * Prepares, checks and sends one case through the outbox, and prints what each destination accepted: the one named,
 * or those that the routes of the site say. The exit code is the worst of them.
 */
export async function send(file: string, flags: SendFlags, output: Output): Promise<ExitCode> {
  const accept = acceptanceOf(flags);
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site, output);
  const previous = await openPrevious(flags.previous ?? [], site, output);
  if (!previous) return exitCodes.usage;
  let store: Awaited<ReturnType<typeof openOutbox>> | undefined;
  const { to, overwrite, json } = flags;
  const feed = registerFeed(site, flags.data, output);
  const how = flags.dryRun ? 'look' : flags.direct ? 'direct' : 'deliver';
  try {
    const { sent, unusable } = await sendCase(
      { checked: opened, site: site.site, to, how, overwrite, accept },
      {
        prepare: async (own, before) => {
          output.progress?.(`Preparing ${file}`);
          const made = await preparedOf(opened, { ...site, site: own }, previous, before);
          output.progress?.(`Sending ${file}`);
          return made && signed(made, { ...site, site: own }, flags.sign, 'send');
        },
        receiver: name => openReceiver(site, name),
        secrets: secretsFrom(site.folder),
        process: { ...processDeps(flags.data), alsoWrote: feed.alsoWrote },
        outbox: async () => {
          store ??= await openStore(flags.data, output);
          return store && feed.of(store.outbox);
        },
        onSent: one => json || print(one, opened, store?.path ?? '', output),
      },
    );
    if (unusable.length > 0) {
      output.err(findingsText(flags.site ?? '--to', unusable, output));
      return exitCodes.usage;
    }
    const direct = sent.filter(({ kind, code }) => kind === 'direct' && code === 0);
    await feed.direct(
      opened,
      direct.map(({ destination }) => destination),
    );
    await feed.carryOut(flags, store?.outbox);
    if (json) output.out(jsonText(sent.length > 1 ? sent.map(told) : sent.map(told)[0]));
    return worstOf(sent.map(({ code }) => code));
  } finally {
    await store?.outbox.close();
    await feed.close();
  }
}

/** What `--accept` lets pass; through the outbox it is kept with the item, and so said there. */
function acceptanceOf({ accept, by, why, direct }: SendFlags): Acceptance | undefined {
  if (!accept) return undefined;
  if (!direct)
    throw new CasetallyError(
      'usage',
      '--accept goes with --direct. Through the outbox: casetally outbox retry ITEM --accept FIELD --by NAME --why TEXT, which is kept with the item.',
    );
  if (!by || !why) throw new CasetallyError('usage', 'to --accept a near match say --by and --why.');
  return { fields: accept, by, why };
}

/** The outbox; undefined, and that is said, without its optional package. */
async function openStore(
  data: string | undefined,
  output: Output,
): Promise<Awaited<ReturnType<typeof openOutbox>> | undefined> {
  try {
    return await openOutbox(data);
  } catch (error) {
    if (!(error instanceof CasetallyError) || error.code !== 'optional-package-missing') throw error;
    const lost = 'The case is sent directly; nothing is kept if it does not arrive.';
    output.err(filled(`casetally: ${error.message}`, output.columns) + filled(lost, output.columns));
    return undefined;
  }
}
