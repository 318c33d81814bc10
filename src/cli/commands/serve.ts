import type { OutboxItem } from '../../delivery/outbox/outbox.js';
import { CasetallyError } from '../../findings/errors.js';
import type { CheckedCase } from '../../pipeline/check.js';
import { submissionFor } from '../../pipeline/in-version.js';
import { outboxItem } from '../../pipeline/outbox-item.js';
import { picturesFrom } from '../../pipeline/pictures/read.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import type { ReadPictures } from '../../report/pictures/stored.js';
import type { Accepted, ServicePorts } from '../../service/api/handlers.js';
import type { SentCase } from '../../service/api/sent-case.js';
import { startService } from '../../service/api/server.js';
import { routesOf } from '../../site/routes.js';
import type { Site } from '../../site/site.js';
import { connect, secrets } from '../connect.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { openOutbox } from '../open-outbox.js';
import type { Output } from '../output.js';
import { portOf, toldToStop } from '../running.js';
import { type OpenedSite, openBytes, openSite } from './open-case.js';
import { caseTools, prepareOpened } from './prepared.js';

interface ServeFlags {
  readonly port?: string;
  readonly host?: string;
  readonly site?: string;
  readonly data?: string;
  /** False with --no-auth. */
  readonly auth?: boolean;
}

/** Serves checking, preparing and taking in over HTTP until it is told to stop (Ctrl-C or SIGTERM). */
export async function serve(flags: ServeFlags, output: Output): Promise<ExitCode> {
  const port = portOf(flags.port);
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const token = tokenOf(site.site, flags.auth !== false);
  const { outbox, path } = await openOutbox(flags.data);
  try {
    const service = await startService(await portsOf(site, outbox), {
      port,
      token,
      ...(flags.host !== undefined && { host: flags.host }),
      onRequest: event => output.out(`${JSON.stringify({ at: new Date().toISOString(), ...event })}\n`),
    });
    output.out(
      `Serving at ${service.baseUrl}${token === undefined ? ', without a token: for trying out only' : ''}.\n` +
        `Review page: ${service.baseUrl}/review\n` +
        `Cases taken in are kept in ${path}; casetally outbox work sends them. Stop it with Ctrl-C.\n`,
    );
    await toldToStop();
    await service.close();
    output.out('Stopped.\n');
    return exitCodes.ok;
  } finally {
    await outbox.close();
  }
}

/** The token of the site configuration; none only when --no-auth says so. */
function tokenOf({ service }: Site, wanted: boolean): string | undefined {
  if (!wanted) return undefined;
  if (!service)
    throw new CasetallyError(
      'usage',
      'the service needs a token: write service: { token: env:NAME } into the site configuration, or give --no-auth to try it out on this machine.',
    );
  const token = secrets(service.token);
  if (token === undefined)
    throw new CasetallyError('settings-invalid', `There is no token of the service at ${service.token}`);
  return token;
}

/** What the handlers work with, over this process's files and outbox. Templates and definitions are loaded once. */
async function portsOf(
  opened: OpenedSite,
  outbox: Awaited<ReturnType<typeof openOutbox>>['outbox'],
): Promise<ServicePorts> {
  const tools = await caseTools(opened);
  const picturesWith = ({ record }: CheckedCase, { pictures }: SentCase) =>
    record && picturesFrom(record, pictures);
  const prepare = (
    checked: CheckedCase,
    { record: bytes }: SentCase,
    previous: readonly EarlierVersion[],
    pictures: ReadPictures | undefined,
    site: Site,
  ) =>
    prepareOpened({ ...checked, bytes }, { ...opened, site }, tools, {
      previous,
      ...(pictures && { pictures }),
    });
  return {
    outbox,
    destinations: Object.keys(opened.site.destinations),
    goesTo: checked => goesTo(opened.site, checked),
    check: bytes => openBytes('case', bytes, opened),
    async earlier(records) {
      const versions: EarlierVersion[] = [];
      for (const bytes of records) {
        const { record, assessment, findings } = await openBytes('previous', bytes, opened);
        if (!record || !assessment) return { findings };
        versions.push({ record, assessment });
      }
      return { versions };
    },
    prepare: async (checked, sent, earlier) =>
      prepare(checked, sent, earlier, await picturesWith(checked, sent), opened.site),
    async accept(checked, sent, earlier, to): Promise<Accepted> {
      // Every destination must be able to take the case before it is written down for any of them.
      const pictures = await picturesWith(checked, sent);
      const made = [];
      for (const name of destinationsOf(opened.site, checked, to)) {
        const { connection, findings } = await connect(opened.site, name);
        if (!connection) return { findings };
        const { destination } = connection.target;
        const prepared = prepare(checked, sent, earlier, pictures, connection.site);
        const written = prepared?.sendable ? submissionFor(prepared, destination) : undefined;
        const found = [...(prepared?.findings ?? checked.findings), ...(written?.findings ?? [])];
        if (!prepared || written?.submission === undefined) return { findings: found };
        made.push({
          item: outboxItem(prepared, written.submission, destination.name, opened.site.namespace),
          found,
        });
      }
      const items: OutboxItem[] = [];
      for (const { item } of made) items.push(await outbox.put(item, Date.now()));
      return { items, findings: made[0]?.found ?? [] };
    },
  };
}

/** Only destinations that the site knows: an address in a request would make the service send anywhere. */
function destinationsOf(site: Site, { record }: CheckedCase, to: string | undefined): (string | undefined)[] {
  if (to !== undefined && !Object.hasOwn(site.destinations, to))
    throw new CasetallyError('usage', 'The site configuration has no destination of that name.');
  if (to !== undefined || site.routes.length === 0 || !record) return [to];
  const names = routesOf(site.routes, record);
  if (names.length === 0)
    throw new CasetallyError('usage', 'No route of the site configuration takes this case: say ?to=NAME.');
  return names;
}

/** Where a case goes when no destination is named: by the routes, else the only one there is. */
function goesTo(site: Site, { record }: CheckedCase): string[] {
  if (site.routes.length > 0) return record ? routesOf(site.routes, record) : [];
  const names = Object.keys(site.destinations);
  return names.length === 1 ? names : [];
}
