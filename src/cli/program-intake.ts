import type { Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';

/** The commands that read sources of a record. */
export function addIntake(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, verbose }: { site(): Option; json(): Option; verbose(): Option },
): void {
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
