import { Command, CommanderError, Option } from 'commander';
import { CasetallyError } from '../findings/errors.js';
import { languages } from '../findings/languages.js';
import { audiences } from '../report/options.js';
import { papers } from '../report/pdf/options.js';
import { CAUTION, SANDBOX_SETTINGS, softwareVersion } from './about.js';
import { askYes } from './ask.js';
import { type ExitCode, exitCodes, exitHelp } from './exit.js';
import type { Output } from './output.js';
import { addCodes } from './program-codes.js';
import { addDelivery } from './program-delivery.js';
import { addService } from './program-service.js';
import { addVersions, previousOption } from './program-versions.js';

/** Runs one command line and gives its exit code. Commands load their parts when they are called, so that start-up stays short. */
export async function run(args: readonly string[], output: Output): Promise<ExitCode> {
  let code: ExitCode = exitCodes.ok;
  const program = buildProgram(output, result => {
    code = result;
  });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.ok : exitCodes.usage;
    if (error instanceof CasetallyError) {
      output.err(`casetally: ${error.message}\n`);
      // All of these are about the environment or the call.
      return exitCodes.usage;
    }
    output.err(
      `casetally: a fault in Casetally itself (${error instanceof Error ? error.name : 'unknown'}). Nothing was changed by this step.\n`,
    );
    if (process.env['CASETALLY_DEBUG'] && error instanceof Error) output.err(`${error.stack}\n`);
    return exitCodes.software;
  }
}

function buildProgram(output: Output, done: (code: ExitCode) => void): Command {
  const site = () => new Option('--site <file>', 'site configuration (YAML or JSON)');
  const json = () => new Option('--json', 'print results as JSON');
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
    .configureOutput({ writeOut: text => output.out(text), writeErr: text => output.err(text) });

  program
    .command('check')
    .description('Read cases and list every finding, with line and remedy')
    .argument('<case...>', 'case records (YAML or JSON)')
    .addOption(site())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/check.js')).check(files, options, output)),
    );

  program
    .command('prepare')
    .description('Write submission, document, report, findings and tally of a case to a folder')
    .argument('<case>', 'case record (YAML or JSON)')
    .requiredOption('--out <folder>', 'where to write')
    .addOption(previousOption())
    .option('--sign <key>', 'sign the document with the site key at env:NAME or file:PATH')
    .addOption(site())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/prepare.js')).prepare(file, options, output)),
    );

  program
    .command('report')
    .description('Print the report of a case')
    .argument('<case>', 'case record (YAML or JSON)')
    .addOption(new Option('--audience <who>', 'who it is for').choices(audiences).default('record'))
    .addOption(
      new Option('--language <tag>', 'language of the fixed words; that of the site when absent').choices(
        languages,
      ),
    )
    .addOption(
      new Option('--format <format>', 'how it is written').choices(['text', 'html', 'pdf']).default('text'),
    )
    .addOption(
      new Option('--paper <size>', 'paper of a PDF; that of the language when absent').choices(papers),
    )
    .option('--draft', 'print it while errors stand, marked on every page as a draft; never for the patient')
    .option('--out <file>', 'file to write; standard output when absent')
    .addOption(site())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/report.js')).report(file, options, output)),
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
    .addOption(json().conflicts('format'))
    .action(async (file: string, options) =>
      done(await (await import('./commands/aftercare.js')).aftercare(file, options, output)),
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
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/send.js')).send(file, options, output)),
    );

  program
    .command('validate')
    .description('Check FHIR R4 resources or Bundles against base R4 and profiles')
    .argument('<file...>', 'FHIR JSON')
    .option('--profile <url...>', 'profiles beside those that the resource claims')
    .option('--package <package...>', 'FHIR packages to load: a .tgz, a folder, or name#version in the cache')
    .option('--cache <folder>', 'FHIR package cache; the usual one in the home folder when absent')
    .option('--summary', 'count findings by rule instead of listing them')
    .option(
      '--terminology-server <url>',
      'ask a terminology server about codes that cannot be checked offline',
    )
    .option('--terminology-cache <file>', 'keep its answers here and use them again')
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/validate.js')).validate(files, options, output)),
    );

  const packages = program.command('packages').description('FHIR packages for validation');
  packages
    .command('list')
    .description('List the packages that are built in or in the cache')
    .option('--cache <folder>', 'FHIR package cache')
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/validate.js')).packages('list', undefined, options, output)),
    );
  packages
    .command('add')
    .description('Copy a package into the cache')
    .argument('<package>', '.tgz file or folder')
    .option('--cache <folder>', 'FHIR package cache')
    .action(async (path: string, options) =>
      done(await (await import('./commands/validate.js')).packages('add', path, options, output)),
    );

  packages
    .command('push')
    .description(
      'Load our profiles, and what they are made of, on a destination that validates what it stores',
    )
    .option('--to <name>', 'destination of the site configuration, or a base address')
    .option(
      '--package <package...>',
      'other packages before ours: a .tgz, a folder, or name#version in the cache',
    )
    .option('--cache <folder>', 'FHIR package cache')
    .option('--dry-run', 'print what is there and what would be loaded, with reads only')
    .option('--yes', 'do not ask')
    .addOption(site())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/packages-push.js')).pushPackages(options, output, askYes)),
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

  const registry = program.command('registry').description('Device-use entries for registries');
  registry
    .command('build')
    .description('Write de-identified device-use entries of cases, with a manifest')
    .argument('<case...>', 'case records (YAML or JSON)')
    .option('--registry <name>', 'registry of the site configuration')
    .option('--out <folder>', 'where to write entries.ndjson and manifest.json; standard output when absent')
    .addOption(site())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/registry.js')).buildRegistry(files, options, output)),
    );

  addVersions(program, output, done, { site, json, data });
  addCodes(program, output, done, { site, json });
  addDelivery(program, output, done, { site, json, data });
  addService(program, output, done, { site, json, data });

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
    .action(() => output.out(exitHelp('')));

  addExitHelp(program);
  return program;
}

/** Every command says in its help what its exit codes mean. */
function addExitHelp(command: Command, path: readonly string[] = []): void {
  for (const child of command.commands) {
    const own = [...path, child.name()];
    if (child.commands.length === 0) child.addHelpText('after', `\n${exitHelp(own.join(' '))}`);
    addExitHelp(child, own);
  }
}
