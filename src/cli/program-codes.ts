import { type Command, Option } from 'commander';
import type { ExitCode } from './exit.js';
import type { Output } from './output.js';

/** The commands around the codes of a site. */
export function addCodes(
  program: Command,
  output: Output,
  done: (code: ExitCode) => void,
  { site, json }: { site(): Option; json(): Option },
): void {
  program
    .command('codes')
    .description("A site's own codes")
    .command('check')
    .description('List what cases name without a code, how often, and which codes others propose')
    .argument('<case...>', 'case records (YAML or JSON), or folders of them')
    .addOption(site())
    .option('--server <name>', 'terminology server: destination of the site configuration, or a base address')
    .option('--names <system>', "code system under which that server's maps know the site's own names")
    .option('--fail-if-any', 'exit with 1 where a name has no code')
    .addOption(new Option('--csv', 'print the open names as a list of codes to fill in').conflicts('json'))
    .addOption(json())
    .action(async (files: string[], options) =>
      done(await (await import('./commands/codes.js')).checkCodes(files, options, output)),
    );
}
