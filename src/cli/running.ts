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

/** Calls back once when the process is told to stop; a second time ends it at once. @returns what takes that back */
export function onToldToStop(stop: () => void): () => void {
  const signals = ['SIGINT', 'SIGTERM'] as const;
  const release = () => {
    for (const signal of signals) process.off(signal, told);
  };
  const told = () => {
    release();
    stop();
  };
  for (const signal of signals) process.on(signal, told);
  return release;
}
