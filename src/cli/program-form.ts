import type { Command } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands around the form of the record: the form itself, and responses to it. */
export function addForm(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, verbose }: SharedOptions,
): void {
  const out = ['--out <file>', 'file to write; standard output when absent'] as const;
  program
    .command('questionnaire')
    .description('Print the case record as a form, a FHIR R4 Questionnaire')
    .option(...out)
    .addOption(site())
    .action(async options => done(await (await import('./commands/form.js')).form(options, output)));

  program
    .command('from-response')
    .description('Turn a QuestionnaireResponse to the form into a case record, and say what was left out')
    .argument('<response>', 'QuestionnaireResponse (FHIR JSON)')
    .option(...out)
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/form.js')).recordFrom(file, options, outputFor(output, options))),
    );

  program
    .command('to-response')
    .description('Turn a case record into a QuestionnaireResponse to the form')
    .argument('<case>', 'case record (YAML or JSON)')
    .option(...out)
    .addOption(site())
    .addOption(verbose())
    .action(async (file: string, options) =>
      done(await (await import('./commands/form.js')).responseOf(file, options, outputFor(output, options))),
    );
}
