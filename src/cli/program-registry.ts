import { type Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands that give registries what they ask for. */
export function addRegistry(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data, verbose }: SharedOptions,
): void {
  const registry = program.command('registry').description('De-identified device-use entries for registries');
  const one = () => new Option('--registry <name>', 'registry of the site configuration');
  const cases = (name: string, description: string) =>
    registry
      .command(name)
      .description(description)
      .argument(
        '[case...]',
        'case records (YAML or JSON) and folders of them; those of the register when absent',
      )
      .addOption(one())
      .option('--from <day>', 'from the register: cases of this day and later, YYYY-MM-DD')
      .option('--to <day>', 'from the register: cases up to this day')
      .addOption(data())
      .addOption(site())
      .addOption(verbose())
      .addOption(json());
  const sending = () => import('./commands/registry/send.js');

  registry
    .command('list')
    .description('The registries of the site: what each takes, and how what it was given stands')
    .addOption(one())
    .option('--batches', 'every batch, those with a whole answer too')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async options => done(await (await import('./commands/registry/list.js')).list(options, output)));

  cases('check', 'Say what a registry would be sent, and what holds it back').action(
    async (places: string[], options) =>
      done(await (await sending()).check(places, options, outputFor(output, options))),
  );

  cases('build', 'Write entries of cases, with a manifest; nothing is sent or kept as sent')
    .option('--out <folder>', 'where to write the entries and manifest.json; standard output when absent')
    .action(async (places: string[], options) =>
      done(
        await (await import('./commands/registry/build.js')).buildRegistry(
          places,
          options,
          outputFor(output, options),
        ),
      ),
    );

  cases('send', 'Give a registry what it has not heard yet: new, changed and withdrawn entries').action(
    async (places: string[], options) =>
      done(await (await sending()).send(places, options, outputFor(output, options))),
  );

  registry
    .command('reconcile')
    .description('Read what a registry answered, line by line')
    .argument('[file...]', 'answers; whatever lies ready for batches that wait for one when absent')
    .addOption(one())
    .option('--batch <id>', 'batch that the file answers, where its name does not say so')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/registry/reconcile.js')).reconcile(files, options, output)),
    );

  cases('resend', 'Send, and with it what an answer left out')
    .option('--refused', 'what the registry refused as well, though its record has not changed')
    .action(async (places: string[], options) =>
      done(await (await sending()).resend(places, options, outputFor(output, options))),
    );

  registry
    .command('resolve')
    .description('Say what a pseudonym stands for, at this site alone; each look is kept')
    .argument('[pseudonym]', 'of an entry, a case or a patient')
    .option('--by <name>', 'who asks')
    .option('--why <text>', 'why')
    .option('--log', 'print who asked for what instead')
    .addOption(data())
    .addOption(json())
    .action(async (pseudonym: string | undefined, options) =>
      done(
        await (await import('./commands/registry/resolve.js')).resolvePseudonym(pseudonym, options, output),
      ),
    );

  registry
    .command('rekey')
    .description('Write a sealed table of old and new pseudonyms, after the secret was changed')
    .addOption(one())
    .requiredOption('--seal <reference>', 'key that the registry has too: env:NAME or file:PATH')
    .option('--out <file>', 'where to write the table')
    .option('--read <file>', 'print such a table instead')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/registry/rekey.js')).rekeyRegistry(options, output)),
    );

  registry
    .command('backup')
    .description('Copy what was given to registries to a file, while sending goes on')
    .requiredOption('--to <file>', 'where the copy goes; nothing is written over')
    .addOption(data())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/registry/copies.js')).backup(options, output)),
    );

  registry
    .command('restore')
    .description('Put a backup into the data folder, where there must be none')
    .argument('<file>', 'a backup of what was given to registries')
    .addOption(data())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/registry/copies.js')).restore(file, options, output)),
    );
}
