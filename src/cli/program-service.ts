import { type Command, Option } from 'commander';
import { rights } from '../site/service.js';
import type { ExitCode } from './exit.js';
import type { Output } from './output.js';
import { addAudit } from './program-audit.js';
import { metricsPort, type SharedOptions } from './program-delivery.js';

/** The commands around the service: serve, token, audit. */
export function addService(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data }: SharedOptions,
): void {
  program
    .command('serve')
    .description(
      'Serve check, prepare and taking cases into the outbox over HTTP, on this machine unless told otherwise',
    )
    .option('--port <number>', 'port; any free one when absent')
    .option('--host <address>', 'address to listen at', '127.0.0.1')
    .option(
      '--metrics-port <number>',
      'serve /metrics, /healthz and /readyz on this port of loopback',
      metricsPort,
    )
    .option('--no-auth', 'without tokens and without signing in, for trying out on this machine only')
    .addOption(data())
    .addOption(site())
    .action(async options => done(await (await import('./commands/serve.js')).serve(options, output)));

  addAudit(program, output, done, { json, data });

  program
    .command('token')
    .description('Tokens of the service')
    .command('new')
    .description('Make a token with rights: it is printed once, with the line for the site configuration')
    .argument('<name>', 'who it is for; stands in the log of the service')
    .addOption(
      new Option('--rights <right...>', 'what it may be used for').choices(rights).makeOptionMandatory(),
    )
    .addOption(json())
    .action(async (name: string, options) =>
      done((await import('./commands/token.js')).newToken(name, options, output)),
    );
}
