import { type Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands of the register of devices. */
export function addRegister(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data, verbose }: SharedOptions,
): void {
  const register = program
    .command('register')
    .description('What is inside whom, until when: the history of each device across cases');
  const csv = () => new Option('--csv', 'print as CSV').conflicts('json');
  const failIfAny = () => new Option('--fail-if-any', 'exit with 1 where the list has something');
  const list = (name: string, description: string) =>
    register
      .command(name)
      .description(description)
      .addOption(data())
      .addOption(site())
      .addOption(csv())
      .addOption(failIfAny())
      .addOption(json());
  const plans = (name: string, description: string) =>
    list(name, description)
      .option('--on <date>', 'the day that counts as today, YYYY-MM-DD')
      .option('--kind <kind>', 'kind or family of device')
      .option('--by <role>', 'who is to do it')
      .option('--limit <number>', 'the first so many, soonest first; 500 on a screen, all elsewhere');
  const decided = (name: string, description: string) =>
    register
      .command(name)
      .description(description)
      .requiredOption('--by <name>', 'who decides')
      .requiredOption('--why <text>', 'why')
      .addOption(data())
      .addOption(site())
      .addOption(json());
  const lists = () => import('./commands/register/lists.js');
  const people = () => import('./commands/register/people.js');
  const decide = () => import('./commands/register/decide.js');
  const keep = () => import('./commands/register/keep.js');

  register
    .command('take')
    .description('Take cases in: accepted ones come by themselves where the site keeps a register')
    .argument('<case...>', 'case records (YAML or JSON), folders of them, or - for standard input')
    .option('--system <address>', 'numbering system of the case numbers, for cases from elsewhere')
    .addOption(data())
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async (places: string[], options) =>
      done(
        await (await import('./commands/register/take.js')).take(places, options, outputFor(output, options)),
      ),
    );

  list('inside', 'What is inside a patient')
    .argument('<patient>', 'number of the patient')
    .option('--system <address>', 'numbering system of that number')
    .option('--all', 'what came out as well')
    .action(async (patient: string, options) =>
      done(await (await people()).inside(patient, options, output)),
    );

  register
    .command('history')
    .description('What happened to a device, from the case that placed it on')
    .argument('<use>', 'CASE/DEVICE, as inside prints it or as any case calls it')
    .addOption(data())
    .addOption(site())
    .addOption(csv())
    .addOption(json())
    .action(async (use: string, options) => done(await (await people()).history(use, options, output)));

  plans('due', 'What is to be done about devices inside, soonest first')
    .option('--within <time>', 'how far ahead: 14d, 2w', '14d')
    .addOption(new Option('--ics', 'print as a calendar').conflicts(['json', 'csv']))
    .action(async options => done(await (await lists()).due(options, output)));

  plans('overdue', 'What should have been done about devices inside').action(async options =>
    done(await (await lists()).overdue(options, output)),
  );

  list('unreviewed', 'Retrievable filters inside that nobody plans to review')
    .option('--on <date>', 'the day that counts as today, YYYY-MM-DD')
    .action(async options => done(await (await lists()).unreviewed(options, output)));

  list('unlinked', 'What a person has to decide: devices that fit several others or none, and gaps').action(
    async options => done(await (await lists()).unlinked(options, output)),
  );

  list('recall', 'Who carries, or carried, the devices of a recall; nothing is sent')
    .argument('<file>', 'CSV (di, lot, serial, expiresFrom, expiresTo), JSON, or FHIR Devices')
    .option('--contacts', 'name the patients by number, for those who contact them')
    .option('--drafts <folder>', 'write drafts for those who decide: contacts, FHIR Flags and Communications')
    .action(async (file: string, options) =>
      done(await (await import('./commands/register/recall.js')).recall(file, options, output)),
    );

  register
    .command('measures')
    .description(
      'Figures of a period: how long devices stay, retrieval, complications, what was overdue, dose',
    )
    .requiredOption('--from <date>', 'first day, YYYY-MM-DD')
    .requiredOption('--to <date>', 'last day, until which devices are followed')
    .option('--k <number>', 'counts from 1 to below this are not shown, nor what would tell them', '5')
    .option('--within <days>', 'days within which filters are asked for', '30,60,90,180,365')
    .addOption(data())
    .addOption(site())
    .addOption(csv())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/register/measures.js')).measures(options, output)),
    );

  decided('link', 'Say that a device of a case is one that the register holds')
    .argument('<case>', 'number of the case')
    .argument('<device>', 'key of the device in it')
    .argument('<use>', 'CASE/DEVICE that it is')
    .action(async (name: string, device: string, use: string, options) =>
      done(await (await decide()).link(name, device, use, options, output)),
    );

  decided('unlink', 'Say that a device of a case is none that the register linked it with')
    .argument('<case>', 'number of the case')
    .argument('<device>', 'key of the device in it')
    .action(async (name: string, device: string, options) =>
      done(await (await decide()).unlink(name, device, options, output)),
    );

  decided('join', 'Say that two numbers are one patient')
    .argument('<one>', 'SYSTEM|NUMBER')
    .argument('<other>', 'SYSTEM|NUMBER')
    .action(async (one: string, other: string, options) =>
      done(await (await decide()).join(one, other, options, output)),
    );

  register
    .command('update-destinations')
    .description('Update what earlier cases left at destinations after a later case removed the device')
    .option('--to <name>', 'only this destination')
    .option('--all', 'check every such case, including those sent before the register was kept')
    .option('--without-versions', 'also where the destination gives no resource versions')
    .addOption(data())
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async options =>
      done(
        await (await import('./commands/register/update-destinations.js')).updateDestinations(
          options,
          outputFor(output, options),
        ),
      ),
    );

  register
    .command('rebuild')
    .description('Make the register anew from the records that it keeps')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async options => done(await (await keep()).rebuild(options, output)));

  register
    .command('backup')
    .description('Copy the register to a file while cases go on being taken in')
    .requiredOption('--to <file>', 'where the copy goes; nothing is written over')
    .addOption(data())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/register/copies.js')).backup(options, output)),
    );

  register
    .command('restore')
    .description('Put a backup into the data folder, where there must be no register')
    .argument('<file>', 'a backup of the register')
    .addOption(data())
    .addOption(json())
    .action(async (file: string, options) =>
      done(await (await import('./commands/register/copies.js')).restore(file, options, output)),
    );

  register
    .command('doctor')
    .description('Say whether the register is sound, and how much is in it')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async options => done(await (await keep()).doctor(options, output)));
}
