import { execFile, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';

/** A running FHIR server of another make: HAPI FHIR's JPA server, https://hapifhir.io, in a process of its own. */
export interface OtherServer {
  readonly baseUrl: string;
  close(): Promise<void>;
}

const FOLDER = import.meta.dirname;
const JAVA = ['-Xmx768m', '-XX:+UseSerialGC', '-XX:TieredStopAtLevel=1'];

/** Builds the server once (some 300 MB from the Maven registry) and starts it; ready in some 15 s. */
export async function startOtherServer(): Promise<OtherServer> {
  await build();
  const classPath = [join(FOLDER, 'target', 'classes'), join(FOLDER, 'target', 'lib', '*')].join(':');
  const child = spawn('java', [...JAVA, '-cp', classPath, 'casetally.server.Main'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const baseUrl = await new Promise<string>((resolve, reject) => {
    let out = '';
    const guard = setTimeout(
      () => reject(new Error(`the server did not start in time: ${out.slice(-2000)}`)),
      180_000,
    );
    const listen = (chunk: Buffer) => {
      out += chunk.toString('utf8');
      const ready = /^ready (\S+)$/m.exec(out);
      if (ready?.[1]) {
        clearTimeout(guard);
        resolve(ready[1]);
      }
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    child.on('exit', code => reject(new Error(`the server ended with ${code}: ${out.slice(-2000)}`)));
    child.on('error', reject);
  });
  return {
    baseUrl,
    close: () =>
      new Promise<void>(resolve => {
        child.removeAllListeners('exit');
        child.on('exit', () => resolve());
        child.kill('SIGKILL');
      }),
  };
}

async function build(): Promise<void> {
  if (existsSync(join(FOLDER, 'target', 'classes', 'casetally')) && existsSync(join(FOLDER, 'target', 'lib')))
    return;
  const goals = ['dependency:copy-dependencies', '-DoutputDirectory=target/lib', 'compile'];
  await promisify(execFile)('mvn', ['-q', '-B', ...goals], { cwd: FOLDER, maxBuffer: 64 * 1024 * 1024 });
}
