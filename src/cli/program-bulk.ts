import { type Command, InvalidArgumentError, type Option } from 'commander';
import type { BulkFlags } from './commands/bulk/flags.js';
import type { ExitCode } from './exit.js';
import { type Output, outputFor, type Shown } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The command for many cases at once. */
export function addBulk(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data, verbose, language }: SharedOptions & { language(what: string): Option },
): void {
  program
    .command('bulk')
    .description(
      'Work many cases at once: store them for sending, write their outputs, or take them into the register',
    )
    .argument('<place>', 'folder of case records (YAML or JSON), or a file with one a line (.ndjson)')
    .option(
      '--to <name>',
      'store them for a destination of the site configuration, or a base address; by its routes when absent',
    )
    .option('--out <folder>', 'in place of that write what prepare writes, to one folder a case')
    .option('--register', 'in place of that take them into the register of devices')
    .option(
      '--system <address>',
      'with --register: numbering system of the case numbers, for cases from elsewhere',
    )
    .option('--sign <key>', 'sign the documents with the site key at env:NAME or file:PATH')
    .option(
      '--threads <number>',
      'cases worked out at the same time; as many as processors when absent',
      threads,
    )
    .option('--seconds <number>', 'the most that one case may take; 60 when absent', seconds)
    .option(
      '--journal <folder>',
      'where it is written down what is done and what is set aside; with the outputs or the outbox when absent',
    )
    .option('--quiet', 'say nothing while it goes on')
    .addOption(language('of what is said of cases that are set aside'))
    .addOption(data())
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (place: string, options: BulkFlags & Shown) =>
      done(await (await import('./commands/bulk/bulk.js')).bulk(place, options, outputFor(output, options))),
    );
}

const upTo = (most: number) => (text: string) => {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < 1 || value > most)
    throw new InvalidArgumentError(`a whole number from 1 to ${most}.`);
  return value;
};
const threads = upTo(64);
const seconds = upTo(600);
