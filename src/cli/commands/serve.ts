import { availableParallelism } from 'node:os';
import type { AuditTrail } from '../../audit/trail.js';
import type { Outbox } from '../../delivery/outbox/outbox.js';
import { reason } from '../../findings/errors.js';
import { type OpenedSite, templatesOf } from '../../pipeline/open-case.js';
import { catchUp } from '../../pipeline/register/feed.js';
import { caseSystemOf } from '../../pipeline/settings.js';
import { loadReportTemplates } from '../../pipeline/tools.js';
import type { Register } from '../../register/store/register.js';
import { DraftChanges } from '../../service/api/draft-changes.js';
import { startService } from '../../service/api/server.js';
import { serviceMetrics } from '../../service/metrics.js';
import { startCaseWork } from '../../service/threads/cases.js';
import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { type MetricsServer, serveMetrics } from '../metrics-server.js';
import type { Output } from '../output.js';
import { openAudit, openDrafts, openOutbox, openRegister, secretsFrom } from '../process.js';
import { portOf, toldToStop } from '../running.js';
import { tokensOf } from '../service-tokens.js';
import { waysIn } from '../ways-in.js';
import { openSite } from './open-site.js';

interface ServeFlags {
  readonly port?: string;
  readonly host?: string;
  readonly site?: string;
  readonly data?: string;
  readonly metricsPort?: number;
  /** False with --no-auth. */
  readonly auth?: boolean;
}

/** Serves checking, preparing and taking in over HTTP until it is told to stop (Ctrl-C or SIGTERM). */
export async function serve(flags: ServeFlags, output: Output): Promise<ExitCode> {
  const port = portOf(flags.port);
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const secrets = secretsFrom(site.folder);
  const clock = () => Date.now();
  const { host = '127.0.0.1' } = flags;
  const signIn = flags.auth === false ? undefined : waysIn(site.site, { secrets, host, clock, output });
  const tokens = flags.auth === false ? undefined : tokensOf(site.site, secrets, signIn !== undefined);
  // Said here, with its own words, and not by a thread that cannot start.
  loadReportTemplates(templatesOf(site));
  const { outbox, path } = await openOutbox(flags.data);
  const register = await registerOf(site, flags.data, outbox, clock);
  let audit: AuditTrail | undefined;
  const drafts = await draftsOf(flags.data);
  try {
    audit = (await openAudit(flags.data)).trail;
    const { work } = site.site.service;
    const threads = work.threads ?? Math.min(8, Math.max(2, availableParallelism() - 1));
    const cases = await startCaseWork(
      { site, outbox, softwareVersion, ...(register && { register }) },
      { ...work, threads },
    );
    const metrics = serviceMetrics(cases);
    let figures: MetricsServer | undefined;
    try {
      if (flags.metricsPort !== undefined)
        figures = await serveMetrics(flags.metricsPort, {
          metrics,
          ready: async () => (await outbox.depths()) !== undefined,
        });
      const service = await startService(
        { site, outbox, secrets, cases, clock, softwareVersion, drafts, ...(register && { register }) },
        {
          ...{ port, tokens, host, audit, proxies: site.site.service.proxies },
          ...(signIn && { people: signIn.people }),
          onFault: error =>
            output.err(`Signed cases cannot leave for now, and are tried again: ${reason(error)}\n`),
          onRequest: event => {
            metrics.observe(event);
            output.out(`${JSON.stringify({ at: new Date().toISOString(), ...event })}\n`);
          },
        },
      );
      output.out(
        `Serving at ${service.baseUrl}${tokens === undefined ? ', without a token: for trying out only' : ''}.\n` +
          `Review page: ${service.baseUrl}/review\n` +
          (figures ? `Figures: http://127.0.0.1:${figures.port}/metrics\n` : '') +
          `Cases taken in are kept in ${path}; casetally outbox work sends them. Stop it with Ctrl-C.\n`,
      );
      signIn?.servedAt(service.baseUrl);
      await toldToStop();
      await service.close();
    } finally {
      await figures?.close();
      await cases.close();
    }
    output.out('Stopped.\n');
    return exitCodes.ok;
  } finally {
    await audit?.close();
    await drafts.store.close();
    await register?.close();
    await outbox.close();
  }
}

/** Drafts of cases, and who is told of their changes. */
async function draftsOf(data: string | undefined) {
  const store = await openDrafts(data);
  return { store, changes: new DraftChanges(store) };
}

/** The register, where the site keeps one, with what was missed taken in; `outbox work` takes in what it delivers. */
async function registerOf(
  site: OpenedSite,
  data: string | undefined,
  outbox: Outbox,
  clock: () => number,
): Promise<Register | undefined> {
  if (!site.site.register) return undefined;
  const { register } = await openRegister(data, caseSystemOf(site.site));
  await catchUp(outbox, { register, site, clock });
  return register;
}
