import { describe, expect, it } from 'vitest';
import { type Finding, messageOf, remedyOf } from '../../src/findings/finding.js';
import { say } from '../../src/findings/say.js';
import { parseCase } from '../../src/record/parse.js';
import { suggest } from '../../src/record/suggest.js';
import { lineOf, SMALL, small } from './small.js';

/** The findings of the small case with one passage changed. */
function faults(from: string | RegExp, to: string): readonly Finding[] {
  return parseCase(small(from, to)).findings;
}
const only = (findings: readonly Finding[]): Finding => {
  expect(findings.map(f => `${f.code} ${f.path}`)).toHaveLength(1);
  const [found] = findings;
  if (!found) throw new Error('one finding was expected');
  return found;
};

describe('one fault gives one finding with line, path, what was expected and the nearest spelling', () => {
  it('finds nothing in the small case', () => expect(parseCase(SMALL).findings).toEqual([]));

  it.each<[string, string, string, string, string, RegExp, RegExp]>([
    [
      'a mistyped key',
      'sex: female',
      'sexx: female',
      'record.unknown-key',
      'patient.sexx',
      /'sexx' is not a field/,
      /^Did you mean 'sex'\?$/,
    ],
    [
      'a key in another case',
      'timeZone:',
      'timezone:',
      'record.unknown-key',
      'case.timezone',
      /timezone/,
      /'timeZone'/,
    ],
    [
      'a key with a dash',
      'timeZone:',
      'time-zone:',
      'record.unknown-key',
      'case.time-zone',
      /time-zone/,
      /'timeZone'/,
    ],
    [
      'a key far from all',
      'sex: female',
      'hobby: chess',
      'record.unknown-key',
      'patient.hobby',
      /hobby/,
      /^Use one of: identifiers, name, birthDate/,
    ],
    [
      'a key in the wrong place',
      'sex: female',
      'allergies: none',
      'record.unknown-key',
      'patient.allergies',
      /allergies/,
      /^It belongs elsewhere: before\.allergies\.$/,
    ],
    [
      'a mistyped verb',
      'do: insert',
      'do: insrt',
      'record.not-one-of',
      'events[0].do',
      /'insrt' is not one of: puncture, insert/,
      /^Did you mean 'insert'\?$/,
    ],
    [
      'a verb in another case',
      'do: insert',
      'do: Insert',
      'record.not-one-of',
      'events[0].do',
      /'Insert'/,
      /'insert'/,
    ],
    [
      'a mistyped value',
      'sex: female',
      'sex: femal',
      'record.not-one-of',
      'patient.sex',
      /'femal'/,
      /'female'/,
    ],
    [
      'a wrong unit',
      'weight: 68 kg',
      'weight: 68 cm',
      'record.bad-quantity',
      'patient.weight',
      /'cm' is not a unit for this: write one of kg, lb, g/,
      /68 kg/,
    ],
    [
      'a missing unit',
      'weight: 68 kg',
      'weight: 68',
      'record.bad-quantity',
      'patient.weight',
      /'68' has no unit/,
      /68 kg/,
    ],
    [
      'a comma',
      'weight: 68 kg',
      'weight: "68,5 kg"',
      'record.bad-quantity',
      'patient.weight',
      /has a comma: write a decimal point/,
      /68 kg/,
    ],
    [
      'a size that is none',
      'size: 8 Fr',
      'size: big',
      'record.bad-quantity',
      'devices.drain.size',
      /'big' does not start with a number/,
      /7 Fr x 26 cm/,
    ],
    [
      'a length in French',
      'length: 80 cm',
      'length: 80 Fr',
      'record.bad-quantity',
      'devices.wire.length',
      /'Fr' is not a unit for this/,
      /145 cm/,
    ],
    [
      'a time that is none',
      'at: "09:10"',
      'at: "9.10"',
      'record.bad-time',
      'events[0].at',
      /'9.10' is not a time: write HH:MM/,
      /09:04/,
    ],
    [
      'a time that is a number',
      'at: "09:10"',
      'at: 910',
      'record.bad-time',
      'events[0].at',
      /'910' is not a time/,
      /09:04/,
    ],
    [
      'a day that does not exist',
      'date: 2024-03-01',
      'date: 2024-02-30',
      'record.bad-time',
      'devices.drain.carried.date',
      /'2024-02-30' is not a date of the calendar/,
      /YYYY-MM-DD/,
    ],
    [
      'a zone that does not exist',
      'Europe/Lisbon',
      'Europe/Lisboa',
      'record.bad-time-zone',
      'case.timeZone',
      /'Europe\/Lisboa' is not a time zone/,
      /Europe\/Lisbon/,
    ],
    [
      'a case date that does not exist',
      'date: 2024-03-14',
      'date: 2024-03-34',
      'record.bad-date',
      'case.date',
      /2024-03-34/,
      /YYYY-MM-DD/,
    ],
    [
      'an address that is none',
      '"urn:oid:2.16.840.1.113883.19.5"',
      'hospital',
      'record.bad-text',
      'patient.identifiers[0].system',
      /'hospital' is not an absolute address/,
      /urn:/,
    ],
    [
      'a key that is none',
      'key: op,',
      'key: 1op,',
      'record.bad-text',
      'team[0].key',
      /'1op' is not a key/,
      /a letter/,
    ],
    [
      'an empty list',
      'drugs: none',
      'drugs: []',
      'record.wrong-type',
      'drugs',
      /at least one entry, or 'none'/,
      /'none'/,
    ],
    [
      'an empty text',
      'text: Invented',
      'text: "  "',
      'record.wrong-type',
      'indication.text',
      /not blank/,
      /not blank/,
    ],
    [
      'no value',
      'sex: female',
      'sex:',
      'record.empty-value',
      'patient.sex',
      /'sex' has no value/,
      /Leave the line out/,
    ],
    [
      'a comma inside braces',
      'kind: guidewire,',
      'kind: guidewire, note: stiff, bent one,',
      'record.empty-value',
      'devices.wire.bent one',
      /'bent one' has no value/,
      /put quotes around the whole text, "stiff, bent one"\.$/,
    ],
    [
      'a comma inside braces before one word',
      'kind: guidewire,',
      'kind: guidewire, note: stiff, bent, takesWire: 0.018 in,',
      'record.empty-value',
      'devices.wire.bent',
      /'bent' has no value/,
      /put quotes around the whole text, "stiff, bent"\.$/,
    ],
    [
      'a comma inside braces after something that is no text',
      'kind: guidewire,',
      'kind: guidewire, parts: { a: { kind: hook } }, bent,',
      'record.empty-value',
      'devices.wire.bent',
      /'bent' has no value/,
      /put quotes around the whole text\.$/,
    ],
    [
      'a field inside braces whose value was left out',
      'kind: guidewire,',
      'kind: guidewire, note: ,',
      'record.empty-value',
      'devices.wire.note',
      /'note' has no value/,
      /Leave the line out/,
    ],
    [
      'text for a group',
      'outcome: { overall: successful }',
      'outcome: successful',
      'record.wrong-type',
      'outcome',
      /Expected a group of fields, found successful/,
      /group of fields/,
    ],
    [
      'a list for text',
      'text: Invented',
      'text: [a, b]',
      'record.wrong-type',
      'indication.text',
      /Expected text, found a list/,
      /text/,
    ],
    [
      'text for a list',
      'drugs: none',
      'drugs: nothing',
      'record.wrong-type',
      'drugs',
      /Expected 'none' or a list, found nothing/,
      /'none' or a list/,
    ],
    [
      'a missing field',
      '  text: Invented\n',
      '  question: x\n',
      'record.missing',
      'indication.text',
      /'text' is missing; expected text/,
      /Add 'text'/,
    ],
    [
      'a missing choice',
      ', overall: successful',
      '',
      'record.missing',
      'outcome.overall',
      /expected one of successful/,
      /Add/,
    ],
    ['a wrong version', 'casetally: 1', 'casetally: 2', 'record.wrong-type', 'casetally', /found 2/, /'1'/],
    [
      'an unknown device',
      'over: wire',
      'over: wiree',
      'record.unknown-reference',
      'events[1].over',
      /no device with the key 'wiree'/,
      /'wire'/,
    ],
    [
      'an unknown target',
      'across: cavity',
      'across: cavty',
      'record.unknown-reference',
      'events[0].across',
      /no target with the key 'cavty'/,
      /'cavity'/,
    ],
    [
      'an unknown part',
      'part: lock',
      'part: loc',
      'record.unknown-reference',
      'events[2].part',
      /no part of drain with the key 'loc'/,
      /'lock'/,
    ],
    [
      'an unknown person',
      'author: op',
      'author: opp',
      'record.unknown-reference',
      'report.author',
      /no team member/,
      /'op'/,
    ],
    [
      'an unknown access',
      'device: wire, through: drain',
      'device: wire, access: groin, through: drain',
      'record.unknown-reference',
      'events[0].access',
      /no access with the key 'groin'/,
      /Declare it/,
    ],
    [
      'stopped without reason',
      'status: completed',
      'status: stopped early',
      'record.reason-missing',
      'case.status',
      /'stopped early' and has no reason/,
      /case\.reason/,
    ],
    [
      'final without signature',
      'status: preliminary',
      'status: final',
      'record.unsigned',
      'report.status',
      /no time of signature/,
      /signedAt/,
    ],
    [
      'allergies not recorded',
      '  allergies: none\n',
      '',
      'record.not-recorded',
      'before.allergies',
      /Allergies: nothing is recorded/,
      /'none'/,
    ],
    [
      'complications not recorded',
      'complications: none\n',
      '',
      'record.not-recorded',
      'complications',
      /Complications/,
      /'none'/,
    ],
    ['drugs not recorded', 'drugs: none\n', '', 'record.not-recorded', 'drugs', /Drugs given/, /'none'/],
  ])('%s', (_, from, to, code, path, message, remedy) => {
    const start = from.startsWith(', overall') ? 'outcome: { overall: successful }' : from;
    const changed = start === from ? to : 'outcome: { text: x }';
    const text = small(start, changed);
    const { findings, locate } = parseCase(text);
    const found = only(findings);
    expect(found).toMatchObject({ code, path });
    expect(messageOf(found)).toMatch(message);
    expect(remedyOf(found)).toMatch(remedy);
    expect(found.basis).not.toBe('');
    expect(found.line).toBe(locate(path)?.line);
    expect(found.column).toBeGreaterThan(0);
  });

  it('points at the line of the fault', () => {
    for (const passage of ['sex: female', 'weight: 68 kg', 'do: remove, device: wire', 'report: {']) {
      const text = small(
        passage,
        passage.replace(/[a-z]+: /, match => `x${match}`),
      );
      const found = parseCase(text).findings.find(f => f.code === 'record.unknown-key');
      expect(found?.line, passage).toBe(lineOf(text, `x${passage.slice(0, 4)}`));
    }
  });

  it('keeps hostile text out of the message: one line, no control characters, bounded', () => {
    const found = only(
      faults('sex: female', String.raw`sex: "\u202Eevil\u0007\nsecond line ${'z'.repeat(500)}"`),
    );
    // biome-ignore lint/suspicious/noControlCharactersInRegex: this is what must not be there
    expect(messageOf(found)).not.toMatch(/[\u0000-\u001f\u202e]/);
    expect(messageOf(found).length).toBeLessThan(200);
  });

  it.each([
    ['Europe/Lisbon', '2024-03-31', '01:30', 'record.time-skipped', /clocks went forward/],
    ['Europe/Lisbon', '2024-10-27', '01:30', 'record.time-twice', /write 01:30\+01:00 or 01:30\+00:00/],
  ])('a time of a clock change in %s on %s', (_, date, time, code, message) => {
    const text = small('date: 2024-03-14', `date: ${date}`).replace('started: "09:00"', `started: "${time}"`);
    const found = parseCase(text).findings;
    const one = only(found);
    expect(one).toMatchObject({ code, path: 'case.started' });
    expect(messageOf(one)).toMatch(message);
  });

  it('says once that there is no zone to read times by', () => {
    const text = small('  timeZone: Europe/Lisbon\n', '');
    const { findings } = parseCase(text);
    expect(only(findings)).toMatchObject({ code: 'record.no-time-zone', path: 'case.started' });
    expect(parseCase(text, { timeZone: 'Europe/Lisbon' }).record?.case.started?.iso).toBe(
      '2024-03-14T09:00:00+00:00',
    );
  });

  it('blames a wrong zone once and not every time that hangs on it', () => {
    expect(only(faults('Europe/Lisbon', 'Mars/Olympus')).code).toBe('record.bad-time-zone');
  });
});

describe('none, and not recorded', () => {
  it.each(['drugs', 'contrast', 'specimens', 'complications', 'left', 'radiation'] as const)('%s', field => {
    expect(parseCase(SMALL).record?.[field]).toBe('none');
    const silent = parseCase(small(`${field}: none\n`, ''));
    expect(silent.record).toBeDefined();
    expect(silent.record?.[field]).toBeUndefined();
    expect(silent.findings).toEqual([
      expect.objectContaining({ code: 'record.not-recorded', path: field, severity: 'warning' }),
    ]);
  });

  it('asks for less of a case that was not done', () => {
    const text = small('status: completed', 'status: not done\n  reason: patient did not come').replace(
      /events:[\s\S]*?report:/,
      'report:',
    );
    expect(parseCase(text).findings).toEqual([]);
  });
});

describe('several faults at once', () => {
  it('shows every one of them in a single run, whatever layer it is on', () => {
    const text = small('sex: female', 'sex: femal')
      .replace('weight: 68 kg', 'weight: 68 cm')
      .replace('do: insert', 'do: insrt')
      .replace('over: wire', 'over: wiree')
      .replace('author: op', 'author: opp')
      .replace('complications: none\n', '')
      .replace('overall: successful', 'overall: successful, "a.b": 1')
      .replace('at: "09:14"', 'at: "10:14"');
    const { findings, record, partial } = parseCase(text);
    expect(findings.map(f => `${f.code} ${f.path}`).sort()).toEqual([
      'record.bad-quantity patient.weight',
      'record.not-one-of events[0].do',
      'record.not-one-of patient.sex',
      'record.not-recorded complications',
      'record.unknown-key outcome["a.b"]',
      'record.unknown-reference events[1].over',
      'record.unknown-reference report.author',
    ]);
    expect(record).toBeUndefined();
    expect(partial?.events).toHaveLength(3);
  });

  it('takes a path of what is left back to the path of the text', () => {
    const parsed = parseCase(small('do: insert', 'do: insrt'));
    expect(parsed.partial?.events?.[0]?.device).toBe('drain');
    expect(parsed.original('events[0].device')).toBe('events[1].device');
    expect(parsed.locate(parsed.original('events[2].at'))?.line).toBe(lineOf(SMALL, 'at: "09:14"'));
  });

  it('does not call unrecorded what could not be read', () => {
    const found = faults('drugs: none', 'drugs: [{ drug: Lidocaine, dose: 10, route: oral, at: "09:00" }]');
    expect(found.map(f => f.code)).toEqual(['record.bad-quantity']);
  });

  it('names a doubled key of a list and of a map', () => {
    expect(
      only(faults('name: Invented Operator }', 'name: A }\n  - { key: op, role: nurse, name: B }')),
    ).toMatchObject({
      code: 'record.duplicate-member',
      path: 'team[1].key',
    });
    expect(only(faults('devices:\n', 'devices:\n  wire: { kind: guidewire }\n'))).toMatchObject({
      code: 'record.duplicate-key',
    });
  });
});

describe('suggestions', () => {
  it('pair a field that is not known with the one that is missing beside it', () => {
    const found = faults(
      'drugs: none',
      'drugs: [{ what: lidocaine, dose: 200 mg, route: local infiltration, at: 2024-03-14T09:10 }]',
    );
    expect(found.map(f => [f.path, remedyOf(f)])).toEqual(
      expect.arrayContaining([['drugs[0].what', "Did you mean 'drug', which is missing here?"]]),
    );
  });

  it.each([
    ['nedle', ['needle', 'wire'], "Did you mean 'needle'?"],
    ['NEEDLE', ['needle', 'wire'], "Did you mean 'needle'?"],
    ['free_drainage', ['free drainage'], "Did you mean 'free drainage'?"],
    ['implant', ['insert', 'deploy', 'remove'], "Did you mean 'deploy' or 'insert'?"],
    ['local', ['intravenous', 'local infiltration'], "Did you mean 'local infiltration'?"],
    ['success', ['successful', 'unsuccessful'], "Did you mean 'successful'?"],
    ['kermaAreaProdukt', ['kermaAreaProduct', 'airKerma'], "Did you mean 'kermaAreaProduct'?"],
    ['case', ['use', 'udi'], 'Use one of: use, udi.'],
    ['x', [], 'Take it out.'],
    ['x'.repeat(100_000), ['needle'], 'Use one of: needle.'],
  ])('%.20s', (found, allowed, said) => {
    expect(say(suggest(found, allowed))).toBe(said);
  });
});
