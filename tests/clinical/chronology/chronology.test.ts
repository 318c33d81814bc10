import { describe, expect, it } from 'vitest';
import { checkChronology } from '../../../src/clinical/chronology/check.js';
import { order, suspects } from '../../../src/clinical/chronology/order.js';
import { pointsOf } from '../../../src/clinical/chronology/points.js';
import { messageOf, remedyOf } from '../../../src/findings/finding.js';
import { parseCase } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { exampleFiles, exampleText } from '../../support/examples.js';

const base = `casetally: 1
case: { id: C-1, status: completed, date: 2024-03-14, timeZone: Europe/Lisbon, started: "09:00", ended: "10:00", kind: abscess drainage }
patient: { identifiers: [{ system: "https://ids.example/p", value: P-1 }], birthDate: 1957-08-02 }
team: [{ key: op, role: operator, name: Dr Sefa Marquand }]
indication: { text: Pelvic collection }
before:
  labs: [{ what: INR, value: "1.1", at: 2024-03-13T18:20 }]
  anticoagulants: [{ drug: apixaban, lastDose: 2024-03-12T20:00 }]
  consent: { status: given, at: 2024-03-14T08:10 }
  fasting: { food: 2024-03-13T22:00, clearFluids: 2024-03-14T06:00 }
  checklist: { signIn: "08:51", timeOut: "08:58", signOut: "09:49" }
  earlierAttempts: [{ date: 2024-03-01, what: aspiration }]
sedation: { kind: moderate sedation, start: "08:55", end: "09:45" }
drugs: [{ drug: midazolam, dose: 2 mg, route: intravenous, at: "08:56" }, { drug: lidocaine, dose: 100 mg, route: local infiltration, for: local anaesthesia, at: "09:03" }]
devices:
  needle: { kind: access needle, size: 18 G }
  wire: { kind: guidewire, diameter: 0.035 in, length: 80 cm }
events:
  - { at: "09:04", do: insert, device: needle }
  - { at: "09:06", do: insert, device: wire, through: needle }
  - { at: "09:07", do: remove, device: needle, over: wire }
  - { at: "09:12", do: remove, device: wire }
contrast: [{ agent: iohexol, volume: 10 mL, route: into a cavity, at: "09:08" }]
specimens: [{ what: pus, at: "09:09" }]
complications: [{ what: pain, at: 2024-03-14T09:20 }]
after: { labs: [{ what: CRP, value: 12 mg/L, at: 2024-03-15T07:00 }], urine: [{ volume: 240 mL, from: "10:30", to: "14:30" }] }
report: { status: final, author: op, signedAt: 2024-03-14T10:20 }
`;

function recordOf(text: string): CaseRecord {
  const { record, findings } = parseCase(text);
  if (!record) throw new Error(findings.map(f => messageOf(f)).join('\n'));
  return record;
}

const changed = (from: string, to: string): CaseRecord => {
  if (!base.includes(from)) throw new Error(`'${from}' is not in the base case`);
  return recordOf(base.replace(from, to));
};

describe('times in the right order', () => {
  it('say nothing', () => {
    expect(checkChronology(recordOf(base), Date.parse('2024-04-01T00:00:00Z'))).toEqual([]);
  });

  it.each(exampleFiles)('say nothing in %s', file => {
    expect(checkChronology(recordOf(exampleText(file)))).toEqual([]);
  });

  it('are compared at the precision that both have', () => {
    // The same day, and the same minute with seconds on one side only: neither is before the other.
    for (const [from, to] of [
      ['at: 2024-03-14T08:10', 'at: 2024-03-14'],
      ['timeOut: "08:58"', 'timeOut: "09:04:30"'],
      ['date: 2024-03-01', 'date: 2024'],
      ['lastDose: 2024-03-12T20:00', 'lastDose: 2024-03-14'],
    ] as const)
      expect(checkChronology(changed(from, to)), to).toEqual([]);
  });

  it('let a patient come asleep in an emergency', () => {
    const asleep = base.replace('start: "08:55"', 'start: "08:40"').replace('at: "08:56"', 'at: "08:45"');
    expect(checkChronology(recordOf(asleep)).map(f => f.path)).toEqual(['before.checklist.signIn']);
    expect(
      checkChronology(recordOf(asleep.replace('kind: abscess', 'urgency: emergency, kind: abscess'))),
    ).toEqual([]);
  });

  it('ask nothing of consent that an emergency did not wait for', () => {
    expect(
      checkChronology(
        changed('{ status: given, at: 2024-03-14T08:10 }', '{ status: emergency, at: 2024-03-14T11:10 }'),
      ),
    ).toEqual([]);
  });

  it('span midnight where they are written with their dates', () => {
    const night = base
      .replaceAll('2024-03-14T08:10', '2024-03-14T21:10')
      .replace('started: "09:00", ended: "10:00"', 'started: "23:30", ended: "2024-03-15T00:40"')
      .replaceAll(/"09:(\d\d)"/g, '"2024-03-15T00:$1"')
      .replace('signIn: "08:51", timeOut: "08:58"', 'signIn: "23:31", timeOut: "23:40"')
      .replace('start: "08:55"', 'start: "23:35"')
      .replace('at: "08:56"', 'at: "23:36"')
      .replace('2024-03-14T09:20', '2024-03-15T00:20')
      .replace('signedAt: 2024-03-14T10:20', 'signedAt: 2024-03-15T00:55')
      .replace('from: "10:30", to: "14:30"', 'from: 2024-03-15T01:00, to: 2024-03-15T05:00');
    expect(checkChronology(recordOf(night))).toEqual([]);
  });
});

describe('one wrong time', () => {
  /** Common practice, no source: mistakes of a day, a year, an hour, or morning for evening. */
  const slips: readonly (readonly [what: string, from: string, to: string, path: string, message: RegExp])[] =
    [
      [
        'a birth after the case',
        '1957-08-02',
        '2057-08-02',
        'patient.birthDate',
        /is before birth \(2057-08-02\)\. \d+ other times/,
      ],
      [
        'a start in the evening',
        'started: "09:00"',
        'started: "13:00"',
        'case.started',
        /other times contradict it too/,
      ],
      [
        'an end before all',
        'ended: "10:00"',
        'ended: "2024-03-13T10:00"',
        'case.ended',
        /The end of the case \(2024-03-13 10:00\) is before the start of the case \(09:00\)/,
      ],
      [
        'an end before the last event',
        'ended: "10:00"',
        'ended: "09:10"',
        'events[3].at',
        /at 09:12, is after the end of the case \(09:10\)/,
      ],
      [
        'an event after the end',
        'at: "09:12"',
        'at: "11:12"',
        'events[3].at',
        /3 other times|2 other times|after the end/,
      ],
      [
        'consent after the puncture',
        'at: 2024-03-14T08:10',
        'at: 2024-03-14T09:40',
        'before.consent.at',
        /the first access|the start of sedation/i,
      ],
      [
        'consent of the wrong year',
        'at: 2024-03-14T08:10',
        'at: 2025-03-14T08:10',
        'before.consent.at',
        /is before consent \(2025-03-14 08:10\)/,
      ],
      [
        'a last dose after access',
        'lastDose: 2024-03-12T20:00',
        'lastDose: 2024-03-14T20:00',
        'before.anticoagulants[0].lastDose',
        /the last dose before the case \(apixaban\) \(20:00\)/,
      ],
      [
        'a laboratory value of tomorrow',
        'at: 2024-03-13T18:20',
        'at: 2024-03-15T18:20',
        'before.labs[0].at',
        /the laboratory value before the case \(INR\)/,
      ],
      [
        'time-out after the puncture',
        'timeOut: "08:58"',
        'timeOut: "09:30"',
        'before.checklist.timeOut',
        /The first access \(insert\) \(09:04\) is before time-out \(09:30\)/,
      ],
      [
        'sign-out while work goes on',
        'signOut: "09:49"',
        'signOut: "09:09"',
        'before.checklist.signOut',
        /is before the last insertion or removal/,
      ],
      [
        'sign-out before sign-in',
        'signOut: "09:49"',
        'signOut: "08:49"',
        'before.checklist.signOut',
        /Sign-out \(08:49\) is before sign-in \(08:51\)/,
      ],
      [
        'sedation that ends before it starts',
        'end: "09:45"',
        'end: "08:45"',
        'sedation.end',
        /The end of sedation \(08:45\)/,
      ],
      [
        'a meal during the case',
        'food: 2024-03-13T22:00',
        'food: 2024-03-14T22:00',
        'before.fasting.food',
        /the last meal/,
      ],
      [
        'contrast after the end',
        'route: into a cavity, at: "09:08"',
        'route: into a cavity, at: "19:08"',
        'contrast[0].at',
        /contrast \(iohexol\) \(19:08\)/,
      ],
      [
        'a specimen before access',
        'at: "09:09"',
        'at: "08:09"',
        'specimens[0].at',
        /The specimen \(pus\) \(08:09\)/,
      ],
      [
        'a signature before the end',
        'signedAt: 2024-03-14T10:20',
        'signedAt: 2024-03-14T09:20',
        'report.signedAt',
        /The signature \(09:20\) is before the end of the case \(10:00\)/,
      ],
      [
        'a value of afterwards that is of before',
        'at: 2024-03-15T07:00',
        'at: 2024-03-13T07:00',
        'after.labs[0].at',
        /The laboratory value after the case \(CRP\)/,
      ],
      [
        'urine collected backwards',
        'to: "14:30"',
        'to: "10:15"',
        'after.urine[0].from',
        /end of the urine collection/,
      ],
      [
        'an earlier attempt of next month',
        'date: 2024-03-01',
        'date: 2024-04-01',
        'before.earlierAttempts[0].date',
        /what was before this case \(aspiration\)/,
      ],
    ];

  it.each(slips)('%s is one finding', (_, from, to, path, message) => {
    const found = checkChronology(changed(from, to));
    expect(found.map(f => f.path)).toEqual([path]);
    const [only] = found;
    expect(only && messageOf(only)).toMatch(message);
    expect(only && remedyOf(only)).toMatch(/Correct|Mend/);
  });

  it('leaves the others that are wrong too their own findings', () => {
    const two = base
      .replace('timeOut: "08:58"', 'timeOut: "09:30"')
      .replace('signedAt: 2024-03-14T10:20', 'signedAt: 2024-03-14T09:20');
    expect(checkChronology(recordOf(two)).map(f => f.path)).toEqual([
      'before.checklist.timeOut',
      'report.signedAt',
    ]);
  });

  it('of the whole day is found against the clock, once', () => {
    const found = checkChronology(recordOf(base), Date.parse('2024-03-01T12:00:00Z'));
    expect(found.map(({ code, path }) => [code, path])).toEqual([['record.in-future', 'case.date']]);
  });

  it('of today is no future', () => {
    expect(checkChronology(recordOf(base), Date.parse('2024-03-15T07:05:00Z'))).toEqual([]);
  });
});

describe('a drug and what it hangs on', () => {
  const drug = (line: string) => base.replace('drugs: [', `drugs: [{ ${line} }, `);
  const paths = (text: string) => checkChronology(recordOf(text)).map(({ code, path }) => `${code} ${path}`);
  const reacted = (at: string) =>
    drug(`drug: adrenaline, dose: 0.5 mg, route: intramuscular, for: allergic reaction, at: "${at}"`).replace(
      'at: "09:08" }]',
      'at: "09:08", reaction: urticaria }]',
    );

  it('is found where a reversal comes before what it undoes', () => {
    const flumazenil = (at: string) =>
      paths(drug(`drug: flumazenil, dose: 0.2 mg, route: intravenous, for: reversal, at: "${at}"`));
    expect(flumazenil('08:52')).toEqual(['record.order-of-times drugs[0].at']);
    expect(flumazenil('09:30')).toEqual([]);
  });

  it('is found where the treatment of a reaction comes before its cause', () => {
    expect(paths(reacted('09:02'))).toEqual(['record.order-of-times drugs[0].at']);
    expect(paths(reacted('09:10'))).toEqual([]);
  });

  it('is found where a drug into an artery comes before the way in', () => {
    const lysis = (at: string) =>
      paths(drug(`drug: alteplase, dose: 4 mg, route: intra-arterial, for: thrombolysis, at: "${at}"`));
    expect(lysis('09:01')).toEqual(['record.order-of-times drugs[0].at']);
    expect(lysis('09:08')).toEqual([]);
  });

  it('is found where the first local anaesthetic comes after the last device is out', () => {
    const late = base.replace('at: "09:03" }]', 'at: "09:20" }]');
    expect(paths(late)).toEqual(['record.order-of-times drugs[1].at']);
    expect(paths(late.replace('moderate sedation', 'general anaesthesia'))).toEqual([]);
  });
});

describe('the table', () => {
  it('names only roles that a record can have, and ranks all of them', () => {
    const roles = new Set(pointsOf(recordOf(base)).map(({ role }) => role));
    const used = new Set(order.flatMap(({ earlier, later }) => [earlier, ...later]));
    // The base case has every role but a death, days told in words, an anaesthesia, a way home, the change of a corrected
    // report, a reversal, and a drug by the way in.
    expect([...used].filter(role => !roles.has(role))).toEqual([
      'imagedBefore',
      'toldBefore',
      'awake',
      'home',
      'change',
      'answer',
      'through',
      'death',
    ]);
    expect([...used].filter(role => !suspects.includes(role))).toEqual([]);
  });

  it('has no circle', () => {
    const after = new Map(
      order.map(({ earlier }) => [earlier, order.filter(o => o.earlier === earlier).flatMap(o => o.later)]),
    );
    const reach = (from: string, seen: Set<string>): Set<string> => {
      for (const next of after.get(from as never) ?? []) if (!seen.has(next)) reach(next, seen.add(next));
      return seen;
    };
    for (const role of after.keys()) expect(reach(role, new Set()).has(role), role).toBe(false);
  });
});

describe('days and times in words', () => {
  const told = (find: string, text: string) => {
    expect(base).toContain(find);
    return checkChronology(recordOf(base.replace(find, text))).map(({ path }) => path);
  };
  const indication = (text: string) => told('text: Pelvic collection', `text: "${text}"`);
  const home = (text: string) =>
    told('report:', `outcome: { overall: successful, disposition: "${text}" }\nreport:`);

  it('the story before the case is before it', () => {
    expect(indication('Collection after removal of the sigmoid on 2024-04-02')).toEqual(['indication.text']);
    expect(indication('Fell from a horse at 09:30')).toEqual(['indication.text']);
    for (const text of [
      'Collection after removal of the sigmoid on 2024-03-02',
      'Second look planned for 2024-04-02',
      'Fell from a horse at 23:30',
      'Fell from a horse yesterday at 09:30',
      'Fell from a horse at 08:10',
    ])
      expect(indication(text), text).toEqual([]);
  });

  it('nobody goes home before the end', () => {
    expect(home('Day ward, home at 09:30')).toEqual(['outcome.disposition']);
    for (const text of [
      'Day ward, home at 14:00',
      'Home at 08:30 tomorrow',
      'Home at 02:00',
      'Ward at 09:30',
    ])
      expect(home(text), text).toEqual([]);
  });

  it('under general anaesthesia nobody works on after its end', () => {
    const asleep = (end: string) =>
      told(
        'moderate sedation, start: "08:55", end: "09:45"',
        `general anaesthesia, start: "08:55", end: "${end}"`,
      );
    expect(asleep('09:10')).toEqual(['sedation.end']);
    expect(asleep('09:45')).toEqual([]);
  });

  it('nothing is done with a device after sign-out', () => {
    const last = (event: string) =>
      told(
        '  - { at: "09:12", do: remove, device: wire }',
        `  - { at: "09:12", do: remove, device: wire }\n  - ${event}`,
      );
    expect(last('{ at: "09:55", do: flush, device: wire }')).toEqual(['before.checklist.signOut']);
    expect(last('{ at: "09:55", do: note, device: wire, result: all counted }')).toEqual([]);
    expect(last('{ at: "09:40", do: flush, device: wire }')).toEqual([]);
  });
});
