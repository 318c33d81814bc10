import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

/** What each folder of src may import, itself aside. The one copy of this table. */
const allowed: Record<string, readonly string[]> = {
  // Findings, the one message type, and the texts of every language (words/).
  findings: [],
  json: [],
  record: ['findings'],
  trade: ['record'],
  devices: ['findings', 'record', 'trade'],
  clinical: ['findings', 'record', 'trade', 'devices'],
  // A case while it is entered: where each thing is, and what can be done with it.
  trays: ['findings', 'record', 'devices'],
  report: ['findings', 'record', 'trade', 'devices', 'clinical'],
  fhir: ['findings', 'json', 'record', 'trade', 'devices', 'clinical'],
  conformance: ['findings', 'json'],
  delivery: ['findings', 'json'],
  registry: ['findings', 'record', 'trade', 'devices', 'clinical', 'fhir', 'delivery'],
  // The register of devices: what is inside whom. Its stores use the connections of the outbox.
  register: ['findings', 'record', 'trade', 'devices', 'clinical', 'fhir', 'registry', 'delivery'],
  // Who did what: entries as FHIR, and the chain that they form. Its store uses the connections of the outbox.
  audit: ['findings', 'delivery'],
  site: ['findings', 'record', 'delivery', 'registry', 'fhir', 'report'],
  // Sources of a record: an order, a kit, a dose report, a form, a scan, spoken lines. Nothing but values comes out.
  // Names of people are compared as at a destination.
  intake: ['findings', 'json', 'record', 'trade', 'devices', 'clinical', 'fhir', 'delivery'],
  // Records that are being entered: edits of their text, merged; their store uses the connections of the outbox.
  drafts: ['findings', 'record', 'intake', 'delivery'],
  pipeline: [
    'findings',
    'json',
    'record',
    'trade',
    'devices',
    'clinical',
    'report',
    'fhir',
    'conformance',
    'delivery',
    'registry',
    'register',
    'site',
    'intake',
    'trays',
  ],
  service: [
    'findings',
    'json',
    'record',
    'conformance',
    'site',
    'pipeline',
    'delivery',
    'report',
    'register',
    'intake',
    'audit',
    'drafts',
  ],
  cli: [
    'findings',
    'record',
    'devices',
    'clinical',
    'report',
    'fhir',
    'conformance',
    'delivery',
    'registry',
    'register',
    'site',
    'intake',
    'audit',
    'drafts',
    'pipeline',
    'service',
    'trays',
  ],
};

/** Folders that may touch files, network, clock, chance or the environment; everywhere else arguments carry these. */
const edges = new Set(['cli', 'service', 'delivery', 'pipeline']);
/** Files of the core that load or stream from disk at the edge, by design and by name. */
const edgeFiles =
  /(?:^|\/)(?:load|loader|files?|read-files|source|stream|terminology-server)[\w-]*\.ts$|conformance\/(?:packages|files|definitions)\/|conformance\/terminology\/server\.ts$/;

const root = join(import.meta.dirname, '..', 'src');

function filesOf(folder: string): string[] {
  return readdirSync(folder).flatMap(name => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesOf(path) : path.endsWith('.ts') ? [path] : [];
  });
}

const files = filesOf(root).map(path => {
  const name = relative(root, path).split(sep).join('/');
  const text = readFileSync(path, 'utf8');
  const imports = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.{1,2}\/[^']+)'/g)].map(([, to]) =>
    posix.join(posix.dirname(name), to ?? ''),
  );
  return { name, folder: name.includes('/') ? name.slice(0, name.indexOf('/')) : '', text, imports };
});

describe('imports run one way', () => {
  it('finds the source', () => {
    expect(files.length).toBeGreaterThan(50);
  });

  it.each(files.filter(file => file.folder !== ''))('$name', ({ folder, imports }) => {
    const may = allowed[folder];
    expect(may, `folder ${folder} is in the table`).toBeDefined();
    const outside = imports
      .map(to => to.split('/')[0] ?? '')
      .filter(to => to !== folder && !may?.includes(to));
    expect(outside).toEqual([]);
  });

  it('imports files, not folder indexes', () => {
    const indexes = files.flatMap(file =>
      imports(file)
        .filter(to => to.endsWith('/index.js'))
        .map(to => `${file.name} -> ${to}`),
    );
    // The conformance folder is also a package entry of its own, so its index may be imported from outside it.
    expect(indexes.filter(line => !line.includes('conformance/index.js'))).toEqual([]);
  });
});

describe('circles between files', () => {
  const targets = new Map(
    files.map(file => [file.name, file.imports.map(to => to.replace(/\.js$/, '.ts'))] as const),
  );

  /** The files on the way from `from` back to itself, along the shortest chain of imports; undefined where there is none. */
  function circleFrom(from: string): string[] | undefined {
    const cameFrom = new Map<string, string>();
    const queue = [from];
    for (const at of queue)
      for (const to of targets.get(at) ?? []) {
        if (to === from) {
          const circle = [at];
          for (let back = at; back !== from; circle.unshift(back)) back = cameFrom.get(back) ?? from;
          return circle;
        }
        if (cameFrom.has(to) || !targets.has(to)) continue;
        cameFrom.set(to, at);
        queue.push(to);
      }
    return undefined;
  }

  it('follows imports to files that are there', () => {
    const followed = [...targets.values()].flat().filter(to => targets.has(to));
    expect(followed.length).toBeGreaterThan(1000);
  });

  it('there are none, imports of types included', () => {
    const circles = files.map(file => circleFrom(file.name)).filter(circle => circle !== undefined);
    const once = new Map(circles.map(circle => [[...circle].sort().join(' '), circle.join(' -> ')]));
    expect([...once.values()]).toEqual([]);
  });
});

describe('the core is pure', () => {
  const core = files.filter(
    file => file.folder !== '' && !edges.has(file.folder) && !edgeFiles.test(file.name),
  );

  it.each(core)('$name takes clock, chance, files, network and environment as arguments', ({ text }) => {
    const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
    expect(code).not.toMatch(/from 'node:(?:fs|http|https|net|child_process|os|dns|worker_threads)[^']*'/);
    expect(code).not.toMatch(
      /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\brandomUUID\b|\bprocess\.(?:env|stdout|stderr|argv)|\bfetch\(|Temporal\.Now/,
    );
  });
});

describe('file size', () => {
  it('no source file is longer than 300 lines', () => {
    expect(files.filter(file => file.text.split('\n').length > 301).map(file => file.name)).toEqual([]);
  });
});

/** Folders of tests that belong to no folder of src: by kind, with a word what they are. `profiles` mirrors profiles/. */
const ofAKind = new Set([
  'cases', // records with the findings that they must give
  'contracts', // one suite that every implementation passes
  'e2e', // the whole way, with processes and servers
  'golden', // outputs as they were
  'oracle', // reference programs from outside
  'plants', // whole cases with planted mistakes
  'profiles', // the profiles at the top of the repository
  'published', // against published sources
  'remedies', // what a finding asks for, done to the letter
  'support',
  'service/case-page', // the case page in a browser, as the service answers it
  'web', // scripts of the pages, as far as they need no browser
]);

describe('tests mirror src', () => {
  const folders = [
    ...new Set(
      filesOf(import.meta.dirname).map(path =>
        posix.dirname(
          relative(import.meta.dirname, path)
            .split(sep)
            .join('/'),
        ),
      ),
    ),
  ].filter(folder => folder !== '.');

  it('finds the tests', () => {
    expect(folders).toContain('devices/labels');
  });

  it('every folder of tests is a folder of src or of a known kind', () => {
    const strangers = folders.filter(
      folder =>
        !ofAKind.has(folder.split('/')[0] ?? '') && !ofAKind.has(folder) && !existsSync(join(root, folder)),
    );
    expect(strangers).toEqual([]);
  });
});

function imports(file: { imports: string[] }): string[] {
  return file.imports;
}
