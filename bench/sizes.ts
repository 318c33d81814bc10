/**
 * Prints how many resources and bytes each example sends with `contents: full`, staff and rooms along, and with the
 * contents of today's default. `npx tsx bench/sizes.ts`. Bytes are those of the JSON without line breaks.
 */
import type { Bundle } from 'fhir/r4.js';
import { exampleFiles, fullSite, preparedExample } from '../tests/support/examples.js';

interface Size {
  readonly resources: number;
  readonly bytes: number;
}

function sizeOf(submission: string): Size {
  const { entry } = JSON.parse(submission) as Bundle;
  return { resources: entry?.length ?? 0, bytes: Buffer.byteLength(JSON.stringify(JSON.parse(submission))) };
}

const line = (name: string, full: Size, core: Size) =>
  [
    name.padEnd(42),
    String(full.resources).padStart(6),
    String(core.resources).padStart(6),
    `${Math.round(full.bytes / 1000)} kB`.padStart(9),
    `${Math.round(core.bytes / 1000)} kB`.padStart(9),
    `${Math.round((100 * core.bytes) / full.bytes)} %`.padStart(6),
  ].join('');

const rows = exampleFiles.map(file => ({
  file,
  full: sizeOf(preparedExample(file, fullSite).submission),
  core: sizeOf(preparedExample(file).submission),
}));
const sum = (of: (row: (typeof rows)[number]) => Size): Size => ({
  resources: rows.reduce((all, row) => all + of(row).resources, 0),
  bytes: rows.reduce((all, row) => all + of(row).bytes, 0),
});

console.log(
  [
    'case'.padEnd(42),
    'full'.padStart(6),
    'core'.padStart(6),
    'full'.padStart(9),
    'core'.padStart(9),
    'core'.padStart(6),
  ].join(''),
);
for (const { file, full, core } of rows) console.log(line(file, full, core));
console.log(
  line(
    'all',
    sum(row => row.full),
    sum(row => row.core),
  ),
);
