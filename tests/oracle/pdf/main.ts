/**
 * Holds the PDF reports of every case, reader and language against PDF/UA-1 (ISO 14289-1) with veraPDF, the validator
 * of the PDF Association's consortium. Needs a JDK (17 or later) and Maven; the jars are fetched once.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { languages } from '../../../src/findings/languages.js';
import { audiences } from '../../../src/report/options.js';
import { allCases, pdfOf } from '../../report/pdf/support.js';

const java = join(import.meta.dirname, 'java');
const target = join(java, 'target');
const stamp = join(target, 'lib.txt');

const tools: [string, string][] = [
  ['java', '-version'],
  ['javac', '-version'],
  ...(existsSync(stamp) ? [] : ([['mvn', '-v']] as [string, string][])),
];
for (const [tool, flag] of tools)
  if (spawnSync(tool, [flag], { stdio: 'ignore' }).error) {
    console.log(`skipped: ${tool} is not installed; the validator needs a JDK (17 or later) and Maven`);
    process.exit(0);
  }

const pom = readFileSync(join(java, 'pom.xml'), 'utf8');
if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== pom) {
  execFileSync('mvn', ['-q', '-B', 'dependency:copy-dependencies', '-DoutputDirectory=target/lib'], {
    cwd: java,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  writeFileSync(stamp, pom);
}
const lib = join(target, 'lib', '*');
execFileSync('javac', [
  '-cp',
  lib,
  '-d',
  target,
  '--release',
  '17',
  '-proc:none',
  join(java, 'Validate.java'),
]);

const folder = mkdtempSync(join(tmpdir(), 'casetally-ua-'));
try {
  const files: string[] = [];
  for (const one of allCases)
    for (const language of languages)
      for (const audience of audiences) {
        const file = join(folder, `${one.name.replace(/\W+/g, '-')}-${language}-${audience}.pdf`);
        writeFileSync(file, await pdfOf(one, audience, { language }));
        files.push(file);
      }
  const classes = [lib, target].join(delimiter);
  const text = execFileSync('java', ['-cp', classes, 'Validate', ...files], {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  const passed = text.match(/^pass /gm)?.length ?? 0;
  console.log(`PDF/UA-1 with veraPDF: ${passed} of ${files.length} reports pass`);
  if (passed !== files.length) {
    console.log(text.replace(/^pass .*\n/gm, ''));
    process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
