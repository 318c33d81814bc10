/**
 * Decodes random and mutated label strings and reports crashes, slow strings and broken promises.
 * `npx tsx bench/labels-fuzz.ts [count] [seed]`; 1,000,000 strings by default. Exits 1 on any fault.
 */
import { performance } from 'node:perf_hooks';
import { decodeLabel } from '../src/devices/labels/decode.js';
import { labelCommandResult, labelExitCode } from '../src/devices/labels/result.js';
import { messageOf } from '../src/findings/finding.js';

const count = Number(process.argv[2] ?? 1_000_000);
let state = Number(process.argv[3] ?? 20261125) >>> 0;

/** A small generator with a seed, so that a fault can be found again (xorshift32). */
function random(below: number): number {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  state >>>= 0;
  return state % below;
}

const seeds = [
  '(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234',
  '{01}00844588003288{17}141120{10}7654321D{21}10987654d321',
  ']d20151022222233336111412311715070710A213B1\u001d211234',
  '010500045611225310COV010917220901',
  '0104062102661608112405271727112710S2400424282400522010301NNN003',
  '+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202C',
  '+A123BJC5D6E71G+$$52001510X3GD',
  '+A99912345/$$81210X3/16D20111212/14D20200906/S77DEFG45$',
  '=/A9999XYZ100T0944=,000025=A99971312345600=>014032=}013032&,1000000000000XYZ123',
  '=+06000=/A9999XYZ100T0476=,000025=A99971712345600=>019032=}017032&,1000000000000XYZ123',
  '=)1TE123456A&)RZ12345678',
  '00643169001763',
];
const alphabets = [
  '0123456789',
  '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%',
  '(){}[]<>|~\\=&,+*$/_\u001d0123456789ABCabc',
  ' \t\r\n\u0000\u001d\u00e4\u20ac\u{1f4a9}\ud800\ufeff]dCQe0123',
];

const pick = <T>(list: ArrayLike<T>): T => list[random(list.length)] as T;
const one = () => pick(pick(alphabets));

function next(): string {
  if (random(4) === 0) {
    const start = pick(['', '(01)', ']d201', '01', '+', '+$$', '=', '=/', '*+', '\u001d10', '10', '91']);
    const alphabet = pick(alphabets);
    let text = start;
    for (let n = random(90); n > 0; n -= 1) text += pick(alphabet);
    return text;
  }
  let text = pick(seeds);
  for (let n = 1 + random(4); n > 0; n -= 1) {
    const at = random(text.length + 1);
    const kind = random(6);
    if (kind === 0) text = text.slice(0, at) + one() + text.slice(at + 1);
    else if (kind === 1) text = text.slice(0, at) + text.slice(at + 1);
    else if (kind === 2) text = text.slice(0, at) + one() + text.slice(at);
    else if (kind === 3) text = text.slice(0, at) + text.slice(at, at + 6) + text.slice(at);
    else if (kind === 4) text = text.slice(0, at) + pick(seeds).slice(random(40));
    else text = random(2) === 0 ? text.toLowerCase() : text.slice(0, at);
  }
  return text;
}

let faults = 0;
const exits = [0, 0, 0];
let slowest = { ms: 0, text: '' };
const started = performance.now();
for (let n = 0; n < count; n += 1) {
  const text = next();
  const before = performance.now();
  try {
    const decoded = decodeLabel(text, { today: '2026-11-25' });
    const exit = labelExitCode(decoded);
    exits[exit] = (exits[exit] ?? 0) + 1;
    JSON.stringify(labelCommandResult(decoded));
    const broken =
      decoded.text !== text ||
      (exit === 0 && decoded.di === undefined) ||
      (exit === 2 && decoded.findings.length === 0) ||
      decoded.findings.some(
        f => /\{\w+\}/.test(messageOf(f).replaceAll(text, '')) && f.code === 'label.length',
      );
    if (broken) throw new Error('a promise of decodeLabel is broken');
  } catch (error) {
    faults += 1;
    if (faults <= 10) console.log(`fault: ${JSON.stringify(text)}: ${String(error)}`);
  }
  const ms = performance.now() - before;
  if (ms > slowest.ms) slowest = { ms, text };
}
const seconds = (performance.now() - started) / 1000;
console.log(`${count} strings in ${seconds.toFixed(1)} s, ${Math.round(count / seconds)} a second`);
console.log(
  `valid ${exits[0]}, with errors ${exits[1]}, no label ${exits[2]}; slowest ${slowest.ms.toFixed(1)} ms`,
);
console.log(`slowest string: ${JSON.stringify(slowest.text)}`);
console.log(`faults: ${faults}`);
process.exitCode = faults > 0 || exits[0] === 0 ? 1 : 0;
