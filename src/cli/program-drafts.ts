import type { Command } from 'commander';
import type { ExitCode } from './exit.js';
import type { Output } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands of drafts. */
export function addDrafts(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data }: SharedOptions,
): void {
  const drafts = program
    .command('drafts')
    .description('Cases that are being entered and are not taken in yet');
  const command = (name: string, description: string) =>
    drafts.command(name).description(description).addOption(data()).addOption(json());
  const look = () => import('./commands/drafts/look.js');
  const change = () => import('./commands/drafts/change.js');

  command('list', 'Drafts by day, with state, case and patient')
    .option('--on <date>', 'of this day alone, YYYY-MM-DD')
    .action(async options => done(await (await look()).list(options, output)));

  command('show', 'Every version of a draft: who changed what, and when')
    .argument('<draft>', 'id, as list prints it')
    .action(async (id: string, options) => done(await (await look()).show(id, options, output)));

  command('export', 'The text of a draft, as a case record')
    .argument('<draft>', 'id, as list prints it')
    .option('--of-version <number>', 'an earlier version')
    .option('--out <file>', 'write to this file, which must not be there; else to standard output')
    .action(async (id: string, options) => done(await (await look()).exportDraft(id, options, output)));

  command('import', 'Begin a draft from a case record, however incomplete')
    .argument('<file>', 'case record (YAML or JSON)')
    .requiredOption('--by <name>', 'who begins it')
    .addOption(site())
    .action(async (file: string, options) => done(await (await change()).importDraft(file, options, output)));

  command('discard', 'Discard a draft; it is kept for the days that the site says')
    .argument('<draft>', 'id, as list prints it')
    .requiredOption('--by <name>', 'who decides')
    .requiredOption('--why <text>', 'why')
    .action(async (id: string, options) => done(await (await change()).discard(id, options, output)));

  command('purge', 'Erase what was discarded or taken in longer ago than the site keeps it')
    .addOption(site())
    .action(async options => done(await (await change()).purge(options, output)));

  command('backup', 'Copy the drafts to a file while they go on being entered')
    .requiredOption('--to <file>', 'where to; there must be no such file')
    .action(async options => done(await (await change()).backup(options, output)));

  command('restore', 'Put a backup into the data folder, where there must be no drafts')
    .argument('<file>', 'a backup')
    .action(async (file: string, options) => done(await (await change()).restore(file, options, output)));
}
