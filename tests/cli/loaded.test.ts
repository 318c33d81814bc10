import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { program } from '../support/built.js';
import { examplePath } from '../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-loaded-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Writes the address of each module that Node loads, by its own hooks (node:module), and those that were required. */
const watch = `
  import { appendFileSync } from 'node:fs';
  import { createRequire, register } from 'node:module';
  register('data:text/javascript,' + encodeURIComponent(\`
    import { appendFileSync } from 'node:fs';
    export async function load(url, context, next) {
      appendFileSync(process.env.LOADED, url + '\\\\n');
      return next(url, context);
    }\`));
  process.on('exit', () =>
    appendFileSync(process.env.LOADED, Object.keys(createRequire('file:///any.js').cache).join('\\n')));`;

/** Packages, and modules of the source, that a command loads: which of them are in a part of the bundle stands in its map. */
function loadedBy(...args: string[]): {
  readonly packages: readonly string[];
  readonly modules: readonly string[];
} {
  const list = join(folder, `${args[0]}.txt`);
  execFileSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(watch)}`, program, ...args],
    { env: { ...process.env, LOADED: list }, stdio: 'pipe' },
  );
  const urls = readFileSync(list, 'utf8');
  const named = (pattern: RegExp) => [...new Set([...urls.matchAll(pattern)].map(([, name = '']) => name))];
  return {
    packages: named(/\/node_modules\/((?:@[^/\n]+\/)?[^/\n]+)\//g),
    modules: named(/\/dist\/cli\/([\w-]+\.js)/g).flatMap(modulesIn),
  };
}

function modulesIn(part: string): readonly string[] {
  const { sources } = JSON.parse(readFileSync(join(dirname(program), `${part}.map`), 'utf8')) as {
    sources: readonly string[];
  };
  return sources.map(source => source.replace(/^.*\/src\/(.*)\.ts$/, '$1'));
}

/** A part of the bundle with all that are loaded with it, and not later. */
function withImports(part: string, found = new Set<string>()): ReadonlySet<string> {
  if (found.has(part)) return found;
  found.add(part);
  const text = readFileSync(join(dirname(program), part), 'utf8');
  for (const [, name = ''] of text.matchAll(/^(?:import|\}) ?(?:from )?"\.\/([\w-]+\.js)";$/gm))
    withImports(name, found);
  return found;
}

/** What no command loads that makes no PDF, reads no list or picture, and talks to nobody. */
const heavy =
  /^(?:pdfkit|fontkit|harfbuzzjs|dcmjs|@jimp\/.*|express|undici|jose|oauth4webapi|fhir-kit-client|pino|prom-client|csv-parse|csv-stringify|ohm-js|zxing-wasm|pg|better-sqlite3)$/;

describe('what a command loads', () => {
  const file = examplePath('embolisation.yaml');
  const made = join(folder, 'made');
  beforeAll(() => {
    execFileSync(process.execPath, [program, 'prepare', file, '--out', made], { stdio: 'pipe' });
  });

  it('check: what reads and assesses, and nothing that renders, maps or validates', () => {
    const { packages, modules } = loadedBy('check', file);
    expect(packages).toContain('yaml');
    expect(packages.filter(name => heavy.test(name))).toEqual([]);
    expect(packages.filter(name => /^(?:handlebars|saxes|fhirpath)$/.test(name))).toEqual([]);
    expect(modules).toContain('clinical/agreement/check');
    const others =
      /^(?:report\/(?:pdf\/render|render\/render)|fhir\/resources|conformance\/check|register|drafts|service)\b/;
    expect(modules.filter(name => others.test(name))).toEqual([]);
  });

  it('validate: what checks FHIR, and nothing of cases', () => {
    const { packages, modules } = loadedBy('validate', join(made, 'document.json'));
    expect(packages).toContain('fhirpath');
    expect(packages.filter(name => heavy.test(name))).toEqual([]);
    expect(packages.filter(name => /^(?:handlebars|yaml)$/.test(name))).toEqual([]);
    expect(modules).toContain('conformance/check/walk');
    const others =
      /^(?:clinical|devices|trade|report\/(?:view|pdf\/render|render\/render)|fhir\/resources|register|drafts|service)\//;
    expect(modules.filter(name => others.test(name))).toEqual([]);
  });

  it('bulk: what works cases out in its threads alone', () => {
    const folder = dirname(program);
    const begin = readdirSync(folder).find(
      name => name.endsWith('.js') && modulesIn(name).includes('cli/commands/bulk/bulk'),
    );
    const modules = [...withImports(begin ?? '')].flatMap(modulesIn);
    expect(modules).toContain('cli/commands/bulk/run');
    expect(modules).toContain('delivery/outbox/sqlite-outbox');
    const others =
      /^(?:clinical\/|fhir\/resources|report\/(?:view|pdf|render\/render)|conformance\/check|register\/case-facts)/;
    expect(modules.filter(name => others.test(name))).toEqual([]);
  });
});
