import { spawn } from 'node:child_process';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { createInterface } from 'node:readline';
import { program } from './built.js';

/** `casetally serve` in a process of its own. */
export interface Running {
  readonly url: string;
  readonly log: string[];
  /** Ends it as a person does. @returns the exit code. */
  stop(): Promise<number | null>;
  /** Ends it at once, as a power cut does. */
  kill(): Promise<unknown>;
}

/** Starts the service; rejects with its exit code and output when it ends at once. */
export function startServe(args: readonly string[], env: Readonly<Record<string, string>>): Promise<Running> {
  const child = spawn(process.execPath, [program, 'serve', ...args], {
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const log: string[] = [];
  const ended = new Promise<number | null>(resolve => child.once('close', resolve));
  createInterface({ input: child.stderr }).on('line', line => log.push(line));
  return new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', line => {
      log.push(line);
      const url = /^Serving at (http:\/\/[\d.]+:\d+)/.exec(line)?.[1];
      if (url)
        resolve({
          url,
          log,
          stop: () => {
            child.kill('SIGTERM');
            return ended;
          },
          kill: () => {
            child.kill('SIGKILL');
            return ended;
          },
        });
    });
    void ended.then(code => reject(new Error(`exit ${code}: ${log.join('\n')}`)));
  });
}

/** The answer to a GET with headers that `fetch` does not let a caller set, as a browser or a page's name would. */
export function answerTo(
  url: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<{ status: number | undefined; headers: IncomingHttpHeaders; body: string }> {
  return new Promise((resolve, reject) => {
    httpRequest(url, { headers }, response => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () =>
        resolve({
          status: response.statusCode,
          headers: response.headers,
          body: Buffer.concat(parts).toString('utf8'),
        }),
      );
    })
      .on('error', reject)
      .end();
  });
}
