/**
 * Thousands of small cases to three destinations, one of which fails half the time:
 * `npm run test:soak -- --cases 3000`. Exit 1 when anything was lost, doubled, out of order or parked, or when the
 * worker held more and more memory.
 */
import { parseArgs } from 'node:util';
import { soak } from '../tests/e2e/soak/soak.js';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '3000' },
    patients: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
  },
});
const result = await soak({
  cases: Number(values.cases),
  patients: Number(values.patients),
  seed: Number(values.seed),
  onProgress: delivered => console.log(`${delivered} delivered`),
});
const mb = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(1)} MB`;
const isFlat = result.heldLate < result.heldEarly + 8 * 1024 * 1024;
console.log(
  `${result.items} items, ${result.delivered} delivered, ${result.faults} faults met, ${result.parked} parked, ` +
    `${result.losses} losses, ${result.doubles} doubles, ${result.outOfOrder} out of order, ` +
    `${Math.round(result.seconds)} s (${Math.round(result.delivered / result.seconds)} a second)\n` +
    `memory held: ${mb(result.heldEarly)} early, ${mb(result.heldLate)} late${isFlat ? '' : ' (GROWS)'}; largest resident ${mb(result.rssLargest)}`,
);
const wrong = result.losses + result.doubles + result.outOfOrder + result.parked;
process.exitCode = wrong > 0 || result.delivered !== result.items || !isFlat ? 1 : 0;
