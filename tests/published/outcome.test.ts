import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/clinical/default-limits.js';
import { intervals } from '../../src/clinical/intervals.js';
import { assessOutcome } from '../../src/clinical/outcome/outcome.js';
import { describeDevices } from '../../src/devices/details.js';
import { tallyDevices } from '../../src/devices/tally/tally.js';
import { caseText, recordOf } from '../support/case-text.js';
import { english } from '../support/english.js';

const assess = (more: string, head = '', kind = 'nephrostomy') => {
  const record = recordOf(caseText({ more, head, kind }));
  const { devices } = describeDevices(record);
  return assessOutcome(record, defaultLimits.outcome, devices, tallyDevices(record, devices));
};
const target = (fields: string, more = '') => assess(`targets: { t: { what: Vessel, ${fields} } }\n${more}`);
const text = (found: ReturnType<typeof assess>, key: string) => {
  const one = found.calculations.find(c => c.key === key);
  return english(one?.result?.text) ?? (one ? `no: ${english(one.notAssessed)}` : undefined);
};
const codes = (found: ReturnType<typeof assess>) => found.findings.map(f => f.code);

// Per cent diameter stenosis by definition: (1 - lumen ÷ healthy diameter) × 100.
describe('narrowing', () => {
  it.each([
    ['1.2 mm', '6 mm', '80 %'],
    ['0.3 cm', '4 mm', '25 %'],
    ['6 mm', '6 mm', '0 %'],
    ['0 mm', '6 mm', '100 %'],
  ])('lumen %s of %s is %s', (lumen, diameter, expected) => {
    expect(text(target(`lumenBefore: ${lumen}, diameter: ${diameter}`), 'narrowing-before/t')).toBe(expected);
  });

  it.each([
    ['lumenBefore: 2 mm', 'not recorded'],
    ['lumenBefore: 7 mm, diameter: 6 mm', 'wider'],
    ['lumenBefore: 2 mm, diameter: 0 mm', 'zero'],
    ['lumenBefore: "< 2 mm", diameter: 6 mm', 'bound'],
    ['lumenBefore: -2 mm, diameter: 6 mm', 'negative'],
  ])('says why not: %s', (fields, why) => {
    expect(text(target(fields), 'narrowing-before/t')).toContain(why);
  });

  it('compares what was written with the diameters', () => {
    expect(codes(target('lumenBefore: 1.2 mm, diameter: 6 mm, narrowingBefore: 90 %'))).toEqual([]);
    expect(codes(target('lumenBefore: 1.2 mm, diameter: 6 mm, narrowingBefore: 91 %'))).toEqual([
      'clinical.narrowing-differs',
    ]);
    expect(codes(target('narrowingAfter: 120 %'))).toEqual(['clinical.narrowing']);
  });
});

// Common practice, no source: at most 30 % of narrowing left.
describe('technical success', () => {
  const success = 'technical-success/t';

  it.each([
    ['narrowingAfter: 30 %', 'successful'],
    ['narrowingAfter: 31 %', 'not successful: the narrowing left is 31 %, more than 30 %'],
    ['lumenAfter: 4 mm, diameter: 6 mm', 'not successful: the narrowing left is 33 %, more than 30 %'],
    ['flowBefore: slow, flowAfter: free', 'successful'],
    ['flowBefore: normal, flowAfter: none', 'not successful: there is no flow after it'],
    ['flowBefore: normal, flowAfter: normal', 'no: nothing that is enough to decide it is recorded'],
  ])('%s is %s', (fields, expected) => {
    expect(text(target(fields), success)).toBe(expected);
  });

  it('says nothing where nothing was recorded', () => {
    expect(target('success: successful').calculations).toEqual([]);
  });

  it('speaks up when the record says otherwise', () => {
    expect(codes(target('success: successful, narrowingAfter: 50 %'))).toEqual(['clinical.success-differs']);
    expect(codes(target('success: partially successful, narrowingAfter: 50 %'))).toEqual([]);
  });

  it('does not call a success what a person recorded as none', () => {
    expect(text(target('success: unsuccessful, narrowingAfter: 10 %'), success)).toContain(
      'recorded as unsuccessful',
    );
  });

  const wire = 'devices: { w: { kind: guidewire, diameter: 0.035 in } }';
  it('needs one crossing among the attempts', () => {
    const events = (...crossed: string[]) =>
      `${wire}\nevents: [${crossed.map((c, i) => `{ at: "09:0${i}", do: cross, device: w, target: t, crossed: ${c} }`).join(', ')}]`;
    expect(text(target('success: successful', events('no', 'no')), success)).toContain('no event crossed it');
    expect(text(target('narrowingAfter: 10 %', events('no', 'yes')), success)).toBe('successful');
    expect(text(target('flowAfter: free', events('yes')), success)).toContain('nothing that is enough');
  });

  it('wants no flow where a vessel was to be closed', () => {
    const coils =
      'devices: { c: { kind: embolisation coil } }\nevents: [{ at: "09:05", do: deploy, device: c, target: t }]\nleft: [{ device: c, purpose: intended }]';
    expect(text(target('success: successful, flowBefore: normal, flowAfter: none', coils), success)).toBe(
      'successful',
    );
    expect(codes(target('success: successful, flowBefore: normal, flowAfter: normal', coils))).toEqual([
      'clinical.success-differs',
    ]);
  });

  it('looks at what became of the device that was to be taken out', () => {
    const filter = (end: string) =>
      assess(
        `targets: { t: { what: Filter, success: successful } }\ndevices: { f: { kind: caval filter, carried: { date: 2024-01-01 } } }\n${end}`,
        '',
        'caval filter retrieval',
      );
    const stays = filter('left: [{ device: f, purpose: temporary }]');
    expect(text(stays, success)).toMatch(/^not successful: .*in situ temporary$/);
    expect(codes(stays)).toEqual(['clinical.success-differs']);
    const out = filter('events: [{ at: "09:20", do: remove, device: f, state: intact }]\nleft: none');
    expect(text(out, success)).toBe('successful');
  });
});

describe('sessions', () => {
  const second = '  session: 2';

  it('asks a later session for the earlier one', () => {
    expect(codes(assess('', second))).toEqual(['clinical.session-without-earlier']);
    expect(codes(assess('', '  session: 1'))).toEqual([]);
    expect(codes(assess(''))).toEqual([]);
  });

  it('shows the earlier attempts and what stayed in between', () => {
    const found = assess(
      'before: { earlierAttempts: [{ date: 2024-05-01, what: Nephrostomy, result: 8 Fr drain }] }\ndevices: { d: { kind: nephrostomy catheter, carried: { date: 2024-05-01 } } }',
      second,
    );
    expect(codes(found)).toEqual([]);
    expect(found.calculations[0]?.inputs.map(i => english(i.value))).toEqual([
      'Nephrostomy: 8 Fr drain',
      'nephrostomy catheter',
    ]);
  });

  it('is content with a device of an earlier case that is named', () => {
    const carried =
      'devices: { d: { kind: nephrostomy catheter, carried: { case: { system: "https://ids.test.example/cases", value: T-0 } } } }';
    expect(codes(assess(carried, second))).toEqual([]);
  });
});

describe('intervals', () => {
  const spans = (more: string, head = '') =>
    Object.fromEntries(
      intervals(recordOf(caseText({ more, head })), new Map()).map(c => [
        c.key,
        english(c.result?.text) ?? `no: ${english(c.notAssessed)}`,
      ]),
    );
  const checklist = 'before: { checklist: { signIn: "08:40", signOut: "10:30" } }';

  it('come from times that stand in the record anyway', () => {
    expect(
      spans(
        `${checklist}\nevents: [{ at: "09:04", do: puncture }, { at: "10:19", do: note }]`,
        '  ended: "10:20"',
      ),
    ).toEqual({
      'door-to-access': '24 min',
      'access-to-end': '75 min (1 h 15 min)',
      'case-length': '80 min (1 h 20 min)',
      'end-to-sign-out': '11 min',
    });
  });

  it('say so when times run backwards', () => {
    expect(spans(`${checklist}\nevents: [{ at: "08:30", do: puncture }]`)['door-to-access']).toBe(
      "no: 'First access' is recorded before 'Sign-in'",
    );
  });

  it('pass midnight and the change of the clocks', () => {
    // Lisbon, 31 March 2024: 00:50 is followed by 02:00 after ten minutes.
    const text = caseText({
      head: '  ended: 2024-03-31T02:10',
      more: 'events: [{ at: 2024-03-31T00:50, do: puncture }, { at: 2024-03-31T02:05, do: note }]',
    })
      .replace('date: 2024-05-14', 'date: 2024-03-30')
      .replace('"09:00"', '"23:50"');
    const found = intervals(recordOf(text), new Map());
    expect(found.map(c => [c.key, c.result?.quantity?.value])).toEqual([
      ['access-to-end', '15'],
      ['case-length', '80'],
    ]);
  });

  it('are left out where a mark is missing', () => {
    expect(spans('')).toEqual({});
  });
});
