import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Offer } from '../../src/trays/offers.js';
import { at } from '../../web/case/desk/tree.js';
import { engineOf, type Looked } from '../../web/case/engine/work.js';
import { eventEdit, firstChosen, parted, tapped } from '../../web/case/trays/ways.js';

const engine = engineOf({ site: { timeZone: 'Europe/Lisbon' }, language: 'en-GB' });
const NOW = Date.UTC(2024, 2, 14, 9, 0);
const KINDS = [
  ...['access needle', 'guidewire', 'introducer sheath', 'balloon catheter', 'stent', 'coil', 'snare'],
  ...['locking drain', 'caval filter', 'peel-away sheath', 'ureteric stent', 'drainage bag', 'microcatheter'],
];

const begun = (kinds: readonly string[]) =>
  `casetally: 1\ndevices:\n${kinds
    .map((kind, n) => `  d${n}: { kind: ${kind}${kind === 'coil' ? ', count: 3' : ''} }\n`)
    .join('')}`;

/** Touches the offer at a place among all that there are; the text as it is then. */
function touch(text: string, { placed, tree }: Looked, pick: number, minute: number): string {
  const all = placed.flatMap(row => row.offers.map(offer => ({ row, offer })));
  const one = all[pick % Math.max(1, all.length)];
  if (!one) return text;
  const time = `${10 + Math.floor(minute / 60)}:${`${minute % 60}`.padStart(2, '0')}`;
  const event = tapped(one.offer, time, firstChosen(one.offer));
  const made = engine.edit({ base: text, now: text }, [
    ...(at(tree, 'case.date') === undefined ? [{ path: 'case.date', value: '2024-03-14' }] : []),
    eventEdit(event),
  ]);
  if (!('text' in made)) throw new Error(JSON.stringify(made.findings));
  return made.text;
}

describe('whatever is touched, one offer after the other', () => {
  it('is a record that reads, says each event, and comes back when it is taken back', () => {
    const verbs = new Set<string>();
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...KINDS), { minLength: 1, maxLength: 5 }),
        fc.array(fc.nat(1_000), { minLength: 1, maxLength: 10 }),
        (kinds, picks) => {
          let text = begun(kinds);
          for (const [minute, pick] of picks.entries()) {
            const looked = engine.look(text, NOW);
            const before = text;
            text = touch(text, looked, pick, minute);
            if (text === before) continue;
            const after = engine.look(text, NOW);
            expect(after.said.length).toBe(looked.said.length + (looked.tree === after.tree ? 0 : 1));
            expect(after.placed.length).toBeGreaterThan(0);
            // Nothing is lost on the way: each device is still somewhere.
            expect(new Set(after.placed.map(row => row.device))).toEqual(
              new Set(kinds.map((_, n) => `d${n}`)),
            );
            for (const row of after.placed) for (const offer of row.offers) verbs.add(offer.do);
          }
          // Played again from the text alone, everything is where it was.
          const once = engine.look(text, NOW);
          const again = engineOf({ site: { timeZone: 'Europe/Lisbon' }, language: 'en-GB' }).look(
            `${text}\n`,
            NOW,
          );
          expect(again.placed).toEqual(once.placed);
          expect(engine.check(text, NOW).findings.filter(one => one.severity === 'fatal')).toEqual([]);
        },
      ),
      { numRuns: 40 },
    );
    expect(verbs.size).toBeGreaterThan(15);
  });

  it('never puts first what is seldom meant and easily regretted', () => {
    const offer = (verb: Offer['do']): Offer => ({ do: verb, device: 'd', fields: [] });
    const { usual, rest } = parted([offer('cut'), offer('remove'), offer('lose'), offer('advance')]);
    expect(usual.map(one => one.do)).toEqual(['remove', 'advance']);
    expect(rest.map(one => one.do)).toEqual(['cut', 'lose']);
  });

  it('asks no further where there is one way, and begins with what it runs on now', () => {
    const { placed } = engine.look(
      `${begun(['guidewire', 'guidewire', 'microcatheter'])}events:
  - { at: "10:00", do: insert, device: d0 }
  - { at: "10:01", do: insert, device: d2, over: d0 }
  - { at: "10:02", do: insert, device: d1 }
`,
      NOW,
    );
    const row = placed.find(one => one.device === 'd2');
    const remove = row?.offers.find(one => one.do === 'remove');
    expect(remove?.over).toEqual(['d1', 'd0']);
    expect(remove && firstChosen(remove)).toEqual({ over: 'd0' });
  });
});
