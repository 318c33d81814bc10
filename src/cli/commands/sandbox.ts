import { SANDBOX_NOTICE, startSandbox } from '../../service/sandbox/server.js';
import { type ExitCode, exitCodes } from '../exit.js';
import type { Output } from '../output.js';
import { portOf, toldToStop } from '../running.js';

/** Runs the embedded server until it is told to stop (Ctrl-C or SIGTERM). */
export async function sandbox(flags: { readonly port?: string }, output: Output): Promise<ExitCode> {
  const port = portOf(flags.port);
  const server = await startSandbox({ port });
  output.out(`${SANDBOX_NOTICE}\nBase address: ${server.baseUrl}\nStop it with Ctrl-C.\n`);
  await toldToStop();
  await server.close();
  output.out('Stopped.\n');
  return exitCodes.ok;
}
