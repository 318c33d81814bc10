import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { CasetallyError } from '../findings/errors.js';
import { type Language, languageOf, languages } from '../findings/languages.js';
import { audiences } from '../report/options.js';
import { papers } from '../report/pdf/options.js';
import { CAUTION, SANDBOX_SETTINGS, softwareVersion } from './about.js';
import { type ExitCode, exitCodes, exitHelp } from './exit.js';
import { type Output, outputFor, withoutProgress } from './output.js';
import { addBulk } from './program-bulk.js';
import { addCodes } from './program-codes.js';
import { addConformance } from './program-conformance.js';
import { addDelivery } from './program-delivery.js';
import { addDrafts } from './program-drafts.js';
import { addForm } from './program-form.js';
import { addIntake } from './program-intake.js';
import { addRegister } from './program-register.js';
import { addRegistry } from './program-registry.js';
import { addService } from './program-service.js';
import { addVersions, previousOption } from './program-versions.js';
import { filled, USUAL_COLUMNS } from './terminal/fill.js';

/** Runs one command line and gives its exit code. Commands load their parts when they are called, so that start-up stays short. */
export async function run(args: readonly string[], output: Output): Promise<ExitCode> {
  let code: ExitCode = exitCodes.ok;
  const shown = args.includes('--json') ? withoutProgress(output) : output;
  const program = buildProgram(shown, result => {
    code = result;
  });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.ok : exitCodes.usage;
    if (error instanceof CasetallyError) {
      shown.err(faultText(error.message, output));
      // All of these are about the environment or the call.
      return exitCodes.usage;
    }
    const kind = error instanceof Error ? error.name : 'unknown';
    const what = `a fault in Casetally itself (${kind}). Nothing was changed by this step.`;
    shown.err(faultText(what, output));
    if (process.env['CASETALLY_DEBUG'] && error instanceof Error) shown.err(`${error.stack}\n`);
    return exitCodes.software;
  } finally {
    output.done?.();
  }
}

/** On a terminal wrapped; in a log one line, so that it is found. */
function faultText(what: string, { watched, columns }: Output): string {
  return filled(`casetally: ${what}`, watched ? columns : Number.POSITIVE_INFINITY);
}

function buildProgram(output: Output, done: (code: ExitCode) => void): Command {
  const site = () => new Option('--site <file>', 'site configuration (YAML or JSON)');
  const json = () => new Option('--json', 'print results as JSON');
  const language = (what: string) =>
    new Option('--language <tag>', `language ${what} (${languages.join(', ')})`).argParser(languageTag);
  const verbose = () =>
    new Option('--verbose', 'show every finding with its basis, notes and what else is kept back');
  const data = () =>
    new Option(
      '--data <place>',
      "where the outbox lies: a folder, or postgres://…; else CASETALLY_DATA, else the platform's folder",
    );
  const program = new Command('casetally')
    .description(
      `One typed record of an image-guided case in; FHIR R4 resources, a report and registry entries out.\n${CAUTION}`,
    )
    .version(softwareVersion)
    .exitOverride()
    .showHelpAfterError('(add --help for usage)')
    // Also beside the names of options on a narrow terminal.
    .configureHelp({ minWidthToWrap: 8 })
    .configureOutput({
      writeOut: text => output.out(text),
      writeErr: text => output.err(text),
      getOutHelpWidth: () => output.columns ?? USUAL_COLUMNS,
      getErrHelpWidth: () => output.columns ?? USUAL_COLUMNS,
    });

  program
    .command('check')
    .description('Read cases and list every finding, with line and remedy')
    .argument('<case...>', 'case records (YAML or JSON)')
    .addOption(language('of what is said, as far as it is translated; that of the site when absent'))
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/check.js')).check(files, options, outputFor(output, options))),
    );

  program
    .command('prepare')
    .description('Write submission, document, report, findings and tally of a case to a folder')
    .argument('<case>', 'case record (YAML or JSON)')
    .requiredOption('--out <folder>', 'where to write')
    .addOption(previousOption())
    .option('--sign <key>', 'sign the document with the site key at env:NAME or file:PATH')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/prepare.js')).prepare(file, options, outputFor(output, options))),
    );

  program
    .command('report')
    .description('Print the report of a case')
    .argument('<case>', 'case record (YAML or JSON)')
    .addOption(new Option('--audience <who>', 'who it is for').choices(audiences).default('record'))
    .addOption(language('of the fixed words; that of the site when absent'))
    .option('--unreviewed', 'print a letter to the patient in a language that no clinician has reviewed')
    .addOption(
      new Option('--format <format>', 'how it is written').choices(['text', 'html', 'pdf']).default('text'),
    )
    .addOption(
      new Option('--paper <size>', 'paper of a PDF; that of the language when absent').choices(papers),
    )
    .option('--draft', 'print it while errors stand, marked on every page as a draft; never for the patient')
    .option('--out <file>', 'file to write; standard output when absent')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/report.js')).report(file, options, outputFor(output, options))),
    );

  program
    .command('templates')
    .description("A site's own report templates")
    .command('check')
    .description('Try own templates on every example: readers, formats, languages, a hostile record')
    .argument('<folder>', 'folder whose layouts and templates go before the shipped ones')
    .addOption(json())
    .action(async (folder: string, options) =>
      done((await import('./commands/templates.js')).checkTemplateFolder(folder, options, output)),
    );

  program
    .command('aftercare')
    .description('Print what is to be done after a case, and when: dates are advice to be confirmed')
    .argument('<case>', 'case record (YAML or JSON)')
    .addOption(
      new Option('--format <format>', 'ics for calendars (dated items only), text or json')
        .choices(['ics', 'text', 'json'])
        .default('text'),
    )
    .addOption(site())
    .addOption(verbose())
    .addOption(json().conflicts('format'))
    .action(async (file: string, options) =>
      done(
        await (await import('./commands/aftercare.js')).aftercare(file, options, outputFor(output, options)),
      ),
    );

  program
    .command('send')
    .description('Prepare, check and send a case to a FHIR server, and print the receipt')
    .argument('<case>', 'case record (YAML or JSON)')
    .option(
      '--to <name>',
      'destination of the site configuration, or a base address; by its routes when absent',
    )
    .addOption(previousOption())
    .option('--sign <key>', 'sign the document with the Ed25519 site key at env:NAME or file:PATH')
    .option('--dry-run', 'say what would be sent and what it would change, with reads only')
    .option('--direct', 'send without the outbox: nothing is kept if it does not arrive')
    .option(
      '--accept <field...>',
      'with --direct: let a near match of this field pass, whatever is there now',
    )
    .option('--by <who>', 'who accepts')
    .option('--why <reason>', 'why it is the same patient all the same')
    .option('--overwrite', 'update what is there even where it was changed since it was sent')
    .addOption(data())
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/send.js')).send(file, options, outputFor(output, options))),
    );

  addBulk(program, output, done, { site, json, data, verbose, language });
  addIntake(program, output, done, { site, json, verbose, data });
  addConformance(program, output, done, { site, json, data, verbose });

  program
    .command('trays')
    .description(
      'Say where each device of a case is, on the table, in the patient or out, and what can be done with it',
    )
    .argument('<case>', 'case record; it need not be whole yet')
    .addOption(language('of names and findings'))
    .addOption(site())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/trays.js')).trays(file, options, outputFor(output, options))),
    );

  program
    .command('events')
    .description('Read lines as people say or type them, and propose events; nothing is recorded')
    .argument('<text...>', 'lines, each in quotes; - reads them from standard input')
    .option('--case <file>', 'case record that they belong to: its devices, and where its events left them')
    .option('--at <time>', 'time of receipt, HH:MM, for lines without one')
    .option(
      '--accept',
      'with --yaml or --json: what was understood as entries of the record, and no longer as proposals',
    )
    .addOption(
      new Option('--yaml', 'print what is proposed as it would stand in a case file').conflicts('json'),
    )
    .addOption(language('of what is said of them'))
    .addOption(site())
    .addOption(json())
    .action(async (texts: string[], options) =>
      done(await (await import('./commands/events.js')).events(texts, options, outputFor(output, options))),
    );

  program
    .command('label')
    .description('Read device labels (GS1, HIBC, ICCBBA), as scanned or as printed')
    .argument('[label...]', 'labels; quote them')
    .addOption(json())
    .option('--stdin', 'read a label a line from standard input, and print one JSON object a line')
    .action(async (labels: string[], options) =>
      done(await (await import('./commands/label.js')).label(labels, options, output)),
    );

  addVersions(program, output, done, { site, json, data, verbose });
  addRegistry(program, output, done, { site, json, data, verbose });
  addRegister(program, output, done, { site, json, data, verbose });
  addDrafts(program, output, done, { site, json, data, verbose });
  addCodes(program, output, done, { site, json });
  addForm(program, output, done, { site, json, data, verbose });
  addDelivery(program, output, done, { site, json, data, verbose });
  addService(program, output, done, { site, json, data, verbose });

  program
    .command('sandbox')
    .description('Run the embedded FHIR server in memory: for trying out and tests only')
    .option('--port <number>', 'port on loopback; any free one when absent')
    .option(
      '--validating',
      'refuse what is not as the profiles that it claims, or claims one that was not loaded',
    )
    .addHelpText('after', `\n${SANDBOX_SETTINGS}`)
    .action(async options => done(await (await import('./commands/sandbox.js')).sandbox(options, output)));

  program
    .command('schema')
    .description('Print the JSON Schema of the case record')
    .action(async () => done(await (await import('./commands/schema.js')).schema(output)));

  program
    .command('demo')
    .description('Try the whole way on an example: prepare, send to the embedded server, read back')
    .option('--out <folder>', 'where to write', 'out/demo')
    .action(async options => done(await (await import('./commands/demo.js')).demo(options, output)));

  program
    .command('exit-codes')
    .description('Print what the exit codes mean')
    .action(() => output.out(exitHelp('', output.columns)));

  addExitHelp(program, output);
  return program;
}

/** Every command says in its help what its exit codes mean. */
function addExitHelp(command: Command, output: Output, path: readonly string[] = []): void {
  for (const child of command.commands) {
    const own = [...path, child.name()];
    if (child.commands.length === 0)
      child.addHelpText('after', `\n${exitHelp(own.join(' '), output.columns)}`);
    addExitHelp(child, output, own);
  }
}

/** `de-CH` is read in `de`; a language that is not there is a wrong call. */
function languageTag(tag: string): Language {
  const language = languageOf(tag);
  if (!language) throw new InvalidArgumentError(`Languages are ${languages.join(', ')}.`);
  return language;
}
