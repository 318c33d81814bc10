/**
 * Looks a few identifiers up in a catalogue of a million invented rows and reports time and memory.
 * `npx tsx bench/catalogue.ts [rows] [csv|json]`. Exits 1 when memory grows beyond the bound or a row is missed.
 */
import { performance } from 'node:perf_hooks';
import { readCatalogue } from '../src/devices/catalogue/load.js';
import { checkDigit } from '../src/devices/labels/gs1-value.js';

const rows = Number(process.argv[2] ?? 1_000_000);
const format = process.argv[3] === 'json' ? 'json' : 'csv';
/** Growth of the resident memory that a run may cause, whatever the length of the catalogue. */
const boundMiB = 250;

const di = (n: number) => {
  const body = `0952${String(n).padStart(9, '0')}`;
  return body + checkDigit(body);
};

/** The catalogue in pieces of a few hundred rows, never whole in memory. */
async function* catalogue(): AsyncGenerator<string> {
  if (format === 'csv') yield 'di,description,kind,maker,reference,sizes,implant,mri,dwell\n';
  for (let n = 0; n < rows; ) {
    let piece = '';
    for (const end = Math.min(rows, n + 500); n < end; n += 1) {
      const description = `Drain ${n % 40} Fr, locking`;
      piece +=
        format === 'csv'
          ? `${di(n)},"${description}",drainage catheter,Kestrelmoor Devices,K-${n},"${n % 40} Fr; 35 cm",no,conditional,12 weeks\n`
          : `${JSON.stringify({ di: di(n), description, kind: 'drainage catheter', sizes: ['35 cm'], implant: false })}\n`;
    }
    yield piece;
  }
}

const wanted = [di(0), di(Math.floor(rows / 2)), di(rows - 1)];
const before = process.memoryUsage.rss();
let peak = before;
const watch = setInterval(() => {
  peak = Math.max(peak, process.memoryUsage.rss());
}, 20);
const started = performance.now();
const { rows: found, read, findings } = await readCatalogue(catalogue(), { format, wanted });
clearInterval(watch);
const seconds = (performance.now() - started) / 1000;
const grownMiB = (Math.max(peak, process.memoryUsage.rss()) - before) / 1024 / 1024;
console.log(`${read} rows of ${format} in ${seconds.toFixed(1)} s, ${Math.round(read / seconds)} a second`);
console.log(
  `resident memory grew by at most ${grownMiB.toFixed(0)} MiB (bound ${boundMiB}); found ${found.size} of ${wanted.length}`,
);
process.exitCode =
  read === rows && found.size === wanted.length && findings.length === 0 && grownMiB < boundMiB ? 0 : 1;
