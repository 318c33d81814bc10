import type { Command } from 'commander';
import type { ExitCode } from './exit.js';
import type { Output } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands that read and copy the audit trail; nothing of the command line changes it. */
export function addAudit(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { json, data }: Pick<SharedOptions, 'json' | 'data'>,
): void {
  const audit = program.command('audit').description('Who did what through the service');
  const work = () => import('./commands/audit.js');
  const asked = (command: Command) =>
    command
      .option('--from <time>', 'from this day, or this time, UTC: 2026-03-01 or 2026-03-01T08:00Z')
      .option('--to <time>', 'up to this day, with it, or up to this time')
      .option('--who <name>', 'a part of a name, or the whole number of a person at their provider')
      .addOption(data());

  audit
    .command('verify')
    .description('Look whether the trail is as it was written')
    .argument('[file]', 'an export of the whole trail (NDJSON) in place of the trail itself')
    .option('--head <n:digest>', 'a head that was kept elsewhere: the trail must have been there once')
    .addOption(data())
    .addOption(json())
    .action(async (file: string | undefined, options) =>
      done(await (await work()).verify(file, options, output)),
    );
  audit
    .command('head')
    .description('Print number and digest of the last entry, to be kept elsewhere')
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await work()).head(options, output)));
  asked(audit.command('list').description('One line for each entry'))
    .addOption(json())
    .action(async options => done(await (await work()).list(options, output)));
  asked(
    audit.command('export').description('Print the entries as FHIR AuditEvents, one a line (NDJSON)'),
  ).action(async options => done(await (await work()).exportTrail(options, output)));
  audit
    .command('backup')
    .description('Copy the trail to a file while entries are added')
    .requiredOption('--to <file>', 'where to; there must be no such file')
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await work()).backup(options, output)));
  audit
    .command('restore')
    .description('Put a backup into the data folder, where there must be no trail')
    .argument('<file>', 'a backup')
    .addOption(data())
    .addOption(json())
    .action(async (file: string, options) => done(await (await work()).restore(file, options, output)));
}
