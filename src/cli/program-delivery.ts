import { type Command, InvalidArgumentError, Option } from 'commander';
import { LOG_LEVELS } from '../delivery/telemetry/log-levels.js';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';

export interface SharedOptions {
  site(): Option;
  json(): Option;
  data(): Option;
  verbose(): Option;
}

/** The commands around delivery: outbox, doctor, keys. */
export function addDelivery(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, data, verbose }: SharedOptions,
): void {
  const commands = () => import('./commands/outbox/outbox.js');
  const outbox = program
    .command('outbox')
    .description('Cases that wait for their destination, and the receipts of those that arrived');
  outbox
    .command('list')
    .description('List items')
    .addOption(
      new Option('--state <state>', 'only these').choices([
        'waiting',
        'sending',
        'delivered',
        'parked',
        'discarded',
      ]),
    )
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async options => done(await (await import('./commands/outbox/list.js')).list(options, output)));
  outbox
    .command('show')
    .description('Show one item and what was said about it (may hold patient data)')
    .argument('<item>')
    .addOption(data())
    .addOption(verbose())
    .addOption(json())
    .action(async (id: string, options) =>
      done(await (await commands()).show(id, options, outputFor(output, options))),
    );
  outbox
    .command('receipt')
    .description('Print the receipt of a delivered item')
    .argument('<item>')
    .addOption(data())
    .addOption(json())
    .action(async (id: string, options) => done(await (await commands()).receipt(id, options, output)));
  outbox
    .command('export')
    .description('Print the submission of an item, byte for byte (holds patient data)')
    .argument('<item>')
    .addOption(data())
    .action(async (id: string, options) => done(await (await commands()).exportItem(id, options, output)));
  outbox
    .command('retry')
    .description('Send one item now, or all that wait or are parked; 0 when nothing is left undelivered')
    .argument('[item]')
    .option(
      '--accept <field...>',
      'let a near match of this field pass: the patient is the same all the same',
    )
    .option('--now', 'do not wait for a server that asked for time; refused before a time that it named')
    .option('--overwrite', 'update what others edited at the destination since it was sent')
    .option('--by <who>', 'who accepts or overwrites; kept with the item')
    .option('--why <reason>', 'kept with the item')
    .addOption(data())
    .addOption(site())
    .addOption(json())
    .action(async (id: string | undefined, options) =>
      done(await (await import('./commands/outbox/retry.js')).retry(id, options, output, waitHere())),
    );
  for (const what of ['park', 'discard'] as const)
    outbox
      .command(what)
      .description(
        what === 'park' ? 'Hold an item back until a person retries it' : 'Decide that an item is never sent',
      )
      .argument('<item>')
      .option('--why <reason>', 'kept with the item')
      .option('--by <who>', 'kept with the item')
      .addOption(data())
      .action(async (id: string, options) => done(await (await commands())[what](id, options, output)));
  outbox
    .command('work')
    .description('Send what is due, until stopped; logs one JSON object a line')
    .option(
      '--metrics-port <number>',
      'serve /metrics, /healthz and /readyz on this port of loopback',
      metricsPort,
    )
    .addOption(new Option('--log-level <level>', 'how much to log').choices([...LOG_LEVELS]).default('info'))
    .addOption(data())
    .addOption(site())
    .action(async options => done(await (await import('./commands/outbox/work.js')).work(options, output)));
  outbox
    .command('purge')
    .description('Remove what was delivered, or discarded, longer ago than an age')
    .requiredOption('--older-than <age>', 'hours, days or weeks: 12h, 90d, 8w')
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await import('./commands/outbox/keep.js')).purge(options, output)));
  outbox
    .command('rekey')
    .description(
      'Seal everything with the first key of CASETALLY_OUTBOX_KEY; stop workers and service before',
    )
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await import('./commands/outbox/keep.js')).rekey(options, output)));
  outbox
    .command('doctor')
    .description('Look whether the outbox is whole: store, sealed fields, digests, receipts')
    .addOption(data())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/outbox/keep.js')).outboxDoctor(options, output)),
    );

  const copies = () => import('./commands/outbox/copies.js');
  outbox
    .command('rescue')
    .description('Copy what can be read of a damaged outbox to a new folder; the damaged one stays as it is')
    .requiredOption('--to <folder>', 'a data folder without an outbox')
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await copies()).rescue(options, output)));
  program
    .command('backup')
    .description('Copy the outbox of a folder to a file, while workers and service go on')
    .requiredOption('--to <file>', 'a file that is not there yet (holds patient data)')
    .addOption(data())
    .addOption(json())
    .action(async options => done(await (await copies()).backup(options, output)));
  program
    .command('restore')
    .description(
      'Put a backup where there is no outbox; what was not delivered is asked for before it is sent',
    )
    .argument('<file>')
    .addOption(data())
    .addOption(json())
    .action(async (file: string, options) => done(await (await copies()).restore(file, options, output)));

  program
    .command('doctor')
    .description(
      'Look whether a destination can be sent to, and what would make it so; nothing is written there',
    )
    .option('--to <name>', 'destination of the site configuration, or a base address')
    .addOption(site())
    .addOption(verbose())
    .addOption(json())
    .action(async options =>
      done(await (await import('./commands/doctor.js')).doctor(options, outputFor(output, options))),
    );

  program
    .command('keys')
    .description('Make a key pair for SMART Backend Services, with a JWKS file for the server')
    .requiredOption('--out <folder>', 'where to write')
    .addOption(
      new Option('--algorithm <name>', 'how assertions are signed')
        .choices(['RS384', 'ES384'])
        .default('ES384'),
    )
    .addOption(json())
    .action(async options => done(await (await import('./commands/keys.js')).keys(options, output)));
}

/** Waiting is for a person who can end it. */
const waitHere = () =>
  process.stderr.isTTY
    ? (ms: number) => new Promise<void>(resolve => void setTimeout(resolve, ms))
    : undefined;

/** A port of the command line. */
export function metricsPort(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value > 65_535)
    throw new InvalidArgumentError('a port is a number up to 65535.');
  return value;
}
