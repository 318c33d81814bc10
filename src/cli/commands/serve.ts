import { CasetallyError } from '../../findings/errors.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { caseTools } from '../../pipeline/prepare-opened.js';
import { startService } from '../../service/api/server.js';

import { softwareVersion } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import type { Output } from '../output.js';
import { openOutbox, processDeps, secretsFrom } from '../process.js';
import { portOf, toldToStop } from '../running.js';
import { openSite } from './open-case.js';

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
  const token = tokenOf(site, flags.auth !== false);
  const { outbox, path } = await openOutbox(flags.data);
  try {
    const tools = await caseTools(site, softwareVersion);
    const service = await startService(
      { site, tools, outbox, secrets: secretsFrom(site.folder), process: processDeps(flags.data) },
      {
        port,
        token,
        ...(flags.host !== undefined && { host: flags.host }),
        onRequest: event => output.out(`${JSON.stringify({ at: new Date().toISOString(), ...event })}\n`),
      },
    );
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
function tokenOf({ site: { service }, folder }: OpenedSite, wanted: boolean): string | undefined {
  if (!wanted) return undefined;
  if (!service)
    throw new CasetallyError(
      'usage',
      'the service needs a token: write service: { token: env:NAME } into the site configuration, or give --no-auth to try it out on this machine.',
    );
  const secrets = secretsFrom(folder);
  const token = secrets(service.token);
  if (token === undefined)
    throw new CasetallyError(
      'settings-invalid',
      `There is no token of the service (${service.token}): nothing is at ${secrets.where?.(service.token)}.`,
    );
  return token;
}
