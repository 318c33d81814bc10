import type { Command } from 'commander';
import { askYes } from './ask.js';
import type { ExitCode } from './exit.js';
import { type Output, outputFor } from './output.js';
import type { SharedOptions } from './program-delivery.js';

/** The commands around conformance: validate, packages. */
export function addConformance(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json, verbose }: SharedOptions,
): void {
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
    .option('--site <file>', 'site configuration: our profiles are known under its fhir.canonical')
    .addOption(verbose())
    .addOption(json())
    .action(async (files: string[], options) =>
      done(
        await (await import('./commands/validate.js')).validate(files, options, outputFor(output, options)),
      ),
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
    .command('write')
    .description('Write our profiles as a FHIR package, for the administrators of a server')
    .argument('<file>', 'the .tgz to write')
    .addOption(site())
    .action(async (path: string, options) =>
      done(await (await import('./commands/packages-write.js')).writePackage(path, options, output)),
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
}
