import type { Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';

/** The commands that begin a record from sources, and bring sources into one. */
export function addIntake(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, verbose }: { site(): Option; json(): Option; verbose(): Option },
): void {
  const several = (value: string, before: readonly string[] = []) => [...before, value];
  const kit = (command: Command) =>
    command.option(
      '--kit <name>',
      'kit of the site, or the file of one; may be given several times',
      several,
    );
  kit(program.command('new'))
    .description('Begin a case record from sources; comments say what is still open')
    .option('--case <id>', 'number of the case')
    .option('--date <day>', 'day of the case, YYYY-MM-DD')
    .option('--out <file>', 'file to write, which must not be there yet; standard output when absent')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/intake/new.js')).newCase(options, outputFor(output, options))),
    );
  kit(program.command('add'))
    .description('Bring sources into a case record; what a person typed stays')
    .argument('<case>', 'case record (YAML or JSON)')
    .option('--out <file>', 'file to write; the record itself when absent')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/intake/add.js')).add(file, options, outputFor(output, options))),
    );
}
