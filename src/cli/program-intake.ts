import type { Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';

/** The commands that read sources of a record, begin one from them, and bring them into one. */
export function addIntake(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, verbose, data }: { site(): Option; json(): Option; verbose(): Option; data(): Option },
): void {
  const several = (value: string, before: readonly string[] = []) => [...before, value];
  const sources = (command: Command) =>
    command
      .option('--kit <name>', 'kit of the site, or the file of one; may be given several times', several)
      .option('--order <number>', 'number of an order, an accession or an encounter, or SYSTEM|NUMBER')
      .option('--dose <file>', 'dose report (DICOM SR); may be given several times', several)
      .option('--from <destination>', 'destination that has the order; the only one of the site when absent')
      .option(
        '--earlier <case>',
        'earlier case, for what it left inside; may be given several times',
        several,
      )
      .option('--register', 'what the register has inside the patient')
      .addOption(data());
  sources(program.command('new'))
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
  sources(program.command('add'))
    .description('Bring sources into a case record; what a person typed stays')
    .argument('<case>', 'case record (YAML or JSON)')
    .option('--lines <file>', 'what was said or typed, a line each, as proposals')
    .option('--accept', 'with --lines: take over as entries what was understood')
    .option('--out <file>', 'file to write; the record itself when absent')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/intake/add.js')).add(file, options, outputFor(output, options))),
    );
  program
    .command('scan')
    .description('Take labels from a scanner that types, or from photos, into the devices of a record')
    .argument('<case>', 'case record (YAML or JSON)')
    .option('--photo <file>', 'photo of labels, JPEG or PNG; may be given several times', several)
    .option('--out <file>', 'file to write; the record itself when absent')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/intake/scan.js')).scan(file, options, outputFor(output, options))),
    );
  program
    .command('dose')
    .description(
      'Read the dose reports of a case (DICOM SR of X-ray and CT), and compare them with its record',
    )
    .argument('<file...>', 'dose reports (DICOM files)')
    .option('--case <file>', 'case record (YAML or JSON) to compare with')
    .option('--contribution', 'print what the reports give to a record, as JSON')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/dose.js')).dose(files, options, outputFor(output, options))),
    );
}
