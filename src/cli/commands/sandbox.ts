import { SANDBOX_NOTICE, startSandbox } from '../../service/sandbox/server.js';
import { SANDBOX_SETTINGS } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import type { Output } from '../output.js';
import { portOf, toldToStop } from '../running.js';

interface SandboxFlags {
  readonly port?: string;
  readonly validating?: boolean;
}

/** Runs the embedded server until it is told to stop (Ctrl-C or SIGTERM). */
export async function sandbox(flags: SandboxFlags, output: Output): Promise<ExitCode> {
  const server = await startSandbox({
    port: portOf(flags.port),
    ...(flags.validating && { validating: 'open' }),
  });
  const settings = SANDBOX_SETTINGS.replace('http://127.0.0.1:PORT/fhir', server.baseUrl);
  output.out(`${SANDBOX_NOTICE}\nBase address: ${server.baseUrl}\n${settings}Stop it with Ctrl-C.\n`);
  await toldToStop();
  await server.close();
  output.out('Stopped.\n');
  return exitCodes.ok;
}
