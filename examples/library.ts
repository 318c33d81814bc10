/**
 * Casetally as a library: read a case, look at what was found, prepare it, send it.
 *
 * Run it with `npx tsx examples/library.ts examples/abscess-drain.yaml`; with a base address as second argument the
 * case is also sent there. (Outside this repository import from 'casetally'.)
 */
import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import {
  checkCase,
  destinationAt,
  isDelivered,
  loadTools,
  messageOf,
  prepareCase,
  readPictures,
  submitCase,
  unconfiguredSite,
} from '../src/index.js';

const [file = 'examples/abscess-drain.yaml', address] = process.argv.slice(2);

// A real site reads its configuration with parseSite(text).
const site = unconfiguredSite;
const checked = checkCase(readFileSync(file), site);
for (const f of checked.findings)
  console.log(`${file}:${f.line ?? 1} ${f.severity} ${f.code}: ${messageOf(f)}`);
if (!checked.record || !checked.assessment) process.exit(1);

// Templates and definitions are loaded once and used for any number of cases.
const tools = loadTools('my-program 1.0');
// Pictures that the record names lie in the folder of the case file.
const pictures = await readPictures(checked.record, dirname(file));
const prepared = prepareCase(checked.record, checked.assessment, site, tools, { pictures });
for (const { name, state } of checked.assessment.tally.entries) console.log(`${name}: ${state}`);
console.log(prepared.reports.referrer.text.split('\n').slice(0, 12).join('\n'));
console.log(
  `${prepared.resources.entries.length} resources, ${prepared.sendable ? 'fit to be sent' : 'held back'}`,
);

if (address !== undefined) {
  const { destination } = destinationAt(address);
  if (!destination) process.exit(2);
  const outcome = await submitCase(prepared, destination, {
    clock: () => Date.now(),
    newId: () => randomUUID(),
  });
  console.log(
    isDelivered(outcome)
      ? `accepted: ${outcome.receipt.entries.length} entries`
      : `not delivered: ${outcome.state}`,
  );
}
