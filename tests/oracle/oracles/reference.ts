import { type ChildProcessWithoutNullStreams, execFileSync, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { createInterface } from 'node:readline';
import { modules } from '../corpus/definitions.js';
import type { Oracle, OracleIssue, Question, Verdict } from './oracle.js';

const java = join(import.meta.dirname, '../java');
const target = join(java, 'target');
const packages = ['hl7.fhir.uv.ips', 'hl7.terminology.r4', 'hl7.fhir.uv.extensions.r4'].map(name =>
  join(modules, name),
);

/** Why the reference validator cannot run here, or undefined when it can. */
export function missing(): string | undefined {
  const tools: [string, string][] = [
    ['java', '-version'],
    ['javac', '-version'],
  ];
  if (!existsSync(join(target, 'lib.txt'))) tools.push(['mvn', '-v']);
  for (const [tool, flag] of tools) {
    if (spawnSync(tool, [flag], { stdio: 'ignore' }).error) {
      return `${tool} is not installed; the reference validator needs a JDK (17 or later) and Maven`;
    }
  }
  return undefined;
}

/** Fetches the jars once (network or local Maven repository), compiles the program; later runs need neither. */
function build(): void {
  const pom = readFileSync(join(java, 'pom.xml'), 'utf8');
  const stamp = join(target, 'lib.txt');
  if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== pom) {
    execFileSync('mvn', ['-q', '-B', 'dependency:copy-dependencies', '-DoutputDirectory=target/lib'], {
      cwd: java,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    writeFileSync(stamp, pom);
  }
  mkdirSync(join(target, 'classes'), { recursive: true });
  const options = [
    '-cp',
    join(target, 'lib', '*'),
    '-d',
    join(target, 'classes'),
    '--release',
    '17',
    '-proc:none',
    // Whatever the machine's own language is.
    '-encoding',
    'UTF-8',
  ];
  execFileSync('javac', [...options, ...sources()], { stdio: ['ignore', 'ignore', 'inherit'] });
}

function sources(): string[] {
  const folder = join(java, 'src/main/java/casetally/oracle');
  return readdirSync(folder)
    .sort()
    .map(name => join(folder, name));
}

function versionOf(folders: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of [join(java, 'pom.xml'), ...sources()]) hash.update(readFileSync(file));
  for (const folder of packages) hash.update(readFileSync(join(folder, 'package.json')));
  for (const folder of folders) {
    for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
      if (/(StructureDefinition|ValueSet|CodeSystem)-[^/\\]+\.json$/.test(name))
        hash.update(readFileSync(join(folder, name)));
    }
  }
  return hash.digest('hex').slice(0, 16);
}

interface Reply {
  readonly ready?: boolean;
  readonly ms: number;
  readonly failure?: string;
  readonly issues: {
    severity: OracleIssue['severity'];
    path?: string;
    message: string;
    messageId?: string;
  }[];
}

/**
 * The HAPI FHIR instance validator in a process of its own, fed and read one line a resource. Only R4 knows packages.
 */
export function referenceOracle(
  extraFolders: readonly string[],
  release: '4.0.1' | '4.3.0' | '5.0.0' = '4.0.1',
): Oracle {
  let running: Running | undefined;
  const start = () => {
    running ??= run(release, release === '4.0.1' ? [...packages, ...extraFolders] : extraFolders);
    return running;
  };
  return {
    name: 'reference',
    version: versionOf(extraFolders),
    ask: async (questions, progress) => (await start().ask(questions, progress)).map(verdictOf),
    time: async (questions, rounds) => {
      const rows: number[][] = [];
      for (let round = 0; round < rounds; round++) {
        rows.push((await start().ask(questions, () => {})).map(reply => reply.ms));
      }
      return questions.map((_, i) => Math.min(...rows.map(row => row[i] ?? Number.NaN)));
    },
    close: () => running?.close(),
  };
}

function verdictOf(reply: Reply): Verdict {
  const issues = reply.issues.map(i => ({
    severity: i.severity,
    path: i.path ?? '',
    message: i.message,
    ...(i.messageId !== undefined && { rule: i.messageId }),
  }));
  return { issues, ...(reply.failure !== undefined && { failure: reply.failure }) };
}

interface Running {
  readonly ask: (questions: readonly Question[], progress: (done: number) => void) => Promise<Reply[]>;
  readonly close: () => void;
}

/** How many requests may be on their way: enough to keep the validator busy, few enough for the pipe. */
const inFlight = 8;

function run(release: string, folders: readonly string[]): Running {
  build();
  const classpath = [join(target, 'classes'), join(target, 'lib', '*')].join(delimiter);
  const args = ['-Xmx2g', '-cp', classpath, 'casetally.oracle.ReferenceOracle', release, ...folders];
  const child: ChildProcessWithoutNullStreams = spawn('java', args, { stdio: ['pipe', 'pipe', 'pipe'] });
  let complaint = '';
  child.stderr.on('data', (chunk: Buffer) => {
    complaint = (complaint + chunk.toString()).slice(-2000);
  });
  const waiting: ((line: string | undefined) => void)[] = [];
  const lines = createInterface({ input: child.stdout });
  lines.on('line', line => waiting.shift()?.(line));
  lines.on('close', () => {
    for (const resolve of waiting.splice(0)) resolve(undefined);
  });
  const next = () =>
    new Promise<Reply>((resolve, reject) => {
      waiting.push(line =>
        line === undefined
          ? reject(new Error(`reference validator ended: ${complaint}`))
          : resolve(JSON.parse(line) as Reply),
      );
    });
  const ready = next();
  const ask: Running['ask'] = async (questions, progress) => {
    await ready;
    const replies: Promise<Reply>[] = [];
    for (const [index, question] of questions.entries()) {
      if (index >= inFlight) await replies[index - inFlight];
      replies.push(next());
      child.stdin.write(`${JSON.stringify(question)}\n`);
      progress(index);
    }
    return Promise.all(replies);
  };
  return { ask, close: () => child.stdin.end() };
}
