import { CasetallyError } from '../findings/errors.js';

/** The port of `--port`; 0, any free one, when absent. @throws CasetallyError 'usage' for anything that is no port. */
export function portOf(text: string | undefined): number {
  const port = Number(text ?? 0);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new CasetallyError('usage', `--port ${text} is not a port: give a number from 0 to 65535.`);
  return port;
}

/** Fulfilled when the process is told to stop: Ctrl-C or SIGTERM. */
export function toldToStop(): Promise<void> {
  return new Promise(resolve => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
