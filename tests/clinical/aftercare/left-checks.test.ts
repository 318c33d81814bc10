import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/clinical/assess.js';
import { parseCase } from '../../../src/record/parse.js';
import { comesOut } from '../../../src/trade/removal.js';

// Common practice, no source: what a ward asks for before it takes over a drain.

const base = `casetally: 1
case: { id: C-1, status: completed, date: 2024-03-14, timeZone: Europe/Lisbon, kind: abscess drainage }
patient: { identifiers: [{ system: "https://ids.example/p", value: P-1 }] }
team: [{ key: op, role: operator, name: Dr Sefa Marquand }]
indication: { text: Pelvic collection }
devices: { drain: { kind: drainage catheter, size: 10 Fr x 25 cm } }
events: [{ at: "09:10", do: insert, device: drain }]
left: [{ device: drain, purpose: temporary, set: free drainage, until: { condition: cavity gone }, latest: 2 weeks }]
aftercare:
  - { key: out, do: Remove the drain, device: drain, due: 1 week, latest: 2 weeks, by: ward, criteria: [{ measure: drain output, is: under, value: 10 mL, action: may come out }] }
advice: { contact: desk 0132 }
report: { status: preliminary, author: op }
`;

const MINE = /latest-differs|without-criteria|contact-missing/;

function found(change: (text: string) => string, contact?: string): string[] {
  const { record, findings } = parseCase(change(base));
  if (!record) throw new Error(JSON.stringify(findings));
  return assess(record, { ...(contact !== undefined && { contact }) })
    .findings.filter(f => MINE.test(f.code))
    .map(f => `${f.code} ${f.path}`);
}
const swap = (from: string, to: string) => (text: string) => {
  if (!text.includes(from)) throw new Error(`'${from}' is not in the case`);
  return text.replace(from, to);
};
const CRITERIA = ', criteria: [{ measure: drain output, is: under, value: 10 mL, action: may come out }]';

describe('what stays and the plan for it', () => {
  it('agree in the base case', () => {
    expect(found(text => text)).toEqual([]);
  });

  it.each([
    ['the item ends later', 'due: 1 week, latest: 2 weeks', 'due: 1 week, latest: 3 weeks'],
    ['the entry ends before the item is due', 'gone }, latest: 2 weeks', 'gone }, latest: 3 days'],
  ])('differ when %s', (_, from, to) => {
    expect(found(swap(from, to))).toEqual(['clinical.latest-differs aftercare[0]']);
  });

  it.each(['Ultrasound of the pelvis', 'Change the dressing of the drain'])(
    'do not differ over a later item that takes nothing out: %s',
    task => {
      const later = `  - { do: ${task}, device: drain, due: 8 weeks, by: referrer }\nadvice:`;
      expect(found(swap('advice:', later))).toEqual([]);
    },
  );

  it('need something to measure by where a drain has a setting', () => {
    expect(found(swap(CRITERIA, ''))).toEqual(['clinical.setting-without-criteria left[0].set']);
    expect(found(text => swap('set: free drainage', 'set: clamped')(swap(CRITERIA, '')(text)))).toEqual([
      'clinical.capped-without-criteria left[0].set',
    ]);
  });

  it.each([
    ['a limit in the condition', swap('cavity gone', 'under 10 mL a day for two days')],
    ['a limit to call at', swap('by: ward', 'by: ward, call: the desk for less than 5 mL in 8 hours')],
    ['an exchange at intervals', swap('Remove the drain', 'Exchange of the drain')],
    ['a device that is meant to stay', swap('purpose: temporary', 'purpose: intended')],
    ['no setting', swap(' set: free drainage,', '')],
  ])('ask for no criteria with %s', (_, change) => {
    expect(found(text => change(swap(CRITERIA, '')(text)))).toEqual([]);
  });

  it('need somebody to call, in the record or at the site', () => {
    const none = swap('advice: { contact: desk 0132 }\n', '');
    expect(found(none)).toEqual(['clinical.contact-missing advice.contact']);
    expect(found(none, 'desk 0132')).toEqual([]);
    expect(found(text => swap('by: ward', 'by: ward, call: bleep 0132')(none(text)))).toEqual([]);
  });
});

describe('comesOut', () => {
  it.each([
    'Remove the drain',
    'Take out the sutures',
    'Take the left drain out',
    'Cholangiogram, then take the drain out',
    'Retrieval of the filter',
    'exchange of the nephrostomy',
  ])('%s', task => {
    expect(comesOut(task)).toBe(true);
  });
  it.each([
    'Change the bag',
    'Do not remove',
    'Check before removal',
    'Cutaneous check',
    'Take the dressing out of the bag',
    'Take blood; nothing comes out',
    'Removed drain: look at the site',
  ])('not: %s', task => {
    expect(comesOut(task)).toBe(false);
  });
});
