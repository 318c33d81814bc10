import { CasetallyError } from '../../findings/errors.js';
import { SANDBOX_NOTICE, startSandbox } from '../../service/sandbox/server.js';
import { type ExitCode, exitCodes } from '../exit.js';
import type { Output } from '../output.js';

/** Runs the embedded server until it is told to stop (Ctrl-C or SIGTERM). */
export async function sandbox(flags: { readonly port?: string }, output: Output): Promise<ExitCode> {
  const port = flags.port === undefined ? 0 : Number(flags.port);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new CasetallyError('usage', `--port ${flags.port} is not a port: give a number from 0 to 65535.`);
  const server = await startSandbox({ port });
  output.out(`${SANDBOX_NOTICE}\nBase address: ${server.baseUrl}\nStop it with Ctrl-C.\n`);
  await new Promise<void>(resolve => {
    process.once('SIGINT', resolve);
    process.once('SIGTERM', resolve);
  });
  await server.close();
  output.out('Stopped.\n');
  return exitCodes.ok;
}
