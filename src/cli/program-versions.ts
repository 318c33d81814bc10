import { type Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** `--previous`, once for each earlier version. */
export function previousOption(): Option {
  return new Option('--previous <case>', 'record of an earlier version that was sent; once for each')
    .default([] as string[], 'none')
    .argParser((file: string, files: string[]) => [...files, file]);
}

/** The commands around versions of a report: compare, move, verify. */
export function addVersions(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data, verbose }: SharedOptions,
): void {
  program
    .command('compare')
    .description('Print the facts that two versions of a case record tell differently')
    .argument('<old>', 'earlier case record')
    .argument('<new>', 'later case record')
    .addOption(site())
    .addOption(json())
    .action(async (before: string, after: string, options) =>
      done(await (await import('./commands/compare.js')).compare(before, after, options, output)),
    );

  program
    .command('move')
    .description(
      'Move a case to another patient: withdraw it under the old one, report it anew under the right one',
    )
    .argument('<old>', 'record of the case as it was sent last')
    .argument('<new>', 'record with a case number of its own, under the right patient')
    .option('--to <name>', 'destination; by the routes of the site when absent')
    .option('--by <key>', 'who withdraws the old case: a key of its team')
    .option('--why <reason>', 'why it was under the wrong patient')
    .addOption(previousOption())
    .addOption(data())
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (old: string, now: string, options) =>
      done(await (await import('./commands/move.js')).move(old, now, options, outputFor(output, options))),
    );

  program
    .command('verify')
    .description('Say whether a document is the one that a site key signed')
    .argument('<document>', 'document.json, byte for byte as it was written')
    .requiredOption('--jws <file>', 'document.jws')
    .requiredOption('--key <file>', 'public keys of the site: JWKS, or one JWK')
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/verify.js')).verify(file, options, output)),
    );
}
