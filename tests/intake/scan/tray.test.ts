import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CatalogueRow } from '../../../src/devices/catalogue/row.js';
import { type DeviceThere, scanContribution } from '../../../src/intake/scan/contribution.js';
import {
  emptyTray,
  type ScanOptions,
  type ScanOutcome,
  type ScanTray,
  scanned,
} from '../../../src/intake/scan/tray.js';

const options: ScanOptions = { today: '2026-06-01', entry: 'scan' };
const GS = '\u001d';
const gs1 = (lot: string, serial = '') =>
  `]d20109520005001228172705311${`0${lot}`}${serial === '' ? '' : `${GS}21${serial}`}`;
const DI = ']C10109520005001228';
const PRODUCTION = ']C11727053110IN1815';

function scan(
  lines: readonly string[],
  more: Partial<ScanOptions> = {},
): { tray: ScanTray; outcomes: ScanOutcome[] } {
  let tray = emptyTray;
  const outcomes = lines.map(line => {
    const step = scanned(tray, line, { ...options, ...more });
    tray = step.tray;
    return step.outcome;
  });
  return { tray, outcomes };
}
const kinds = (outcomes: readonly ScanOutcome[]) => outcomes.map(({ kind }) => kind);
const labels = ({ devices }: ScanTray) =>
  devices.map(({ label: { di, lot, serial, expires }, count }) => [di, lot, serial, expires, count]);

describe('labels from a scanner', () => {
  it('are a device each', () => {
    const { tray, outcomes } = scan([gs1('A1'), gs1('A2')]);
    expect(kinds(outcomes)).toEqual(['new', 'new']);
    expect(labels(tray)).toEqual([
      ['09520005001228', 'A1', undefined, '2027-05-31', 1],
      ['09520005001228', 'A2', undefined, '2027-05-31', 1],
    ]);
  });

  it.each([
    ['GS1, identifier first', [DI, PRODUCTION], ['new', 'joined']],
    ['GS1, production data first', [PRODUCTION, DI], ['waits', 'new']],
  ])('two symbols of one label are one device: %s', (_, lines, expected) => {
    const { tray, outcomes } = scan(lines);
    expect(kinds(outcomes)).toEqual(expected);
    expect(labels(tray)).toEqual([['09520005001228', 'IN1815', undefined, '2027-05-31', 1]]);
  });

  // The two symbols of the HIBC example that the FDA prints (UDI formats by FDA-accredited issuing agencies), from memory.
  const HIBC = ['+H123ABC01234567890D', '+$$420020216LOT123456789012345DV'];
  it.each([
    ['primary first', HIBC],
    ['secondary first', HIBC.toReversed()],
  ])('HIBC: %s', (_, lines) => {
    const { tray } = scan(lines);
    expect([tray.devices.length, tray.waiting.length]).toEqual([1, 0]);
    expect(tray.devices[0]?.label).toMatchObject({ issuer: 'hibcc', lot: 'LOT123456789012345' });
  });

  it('production data of one device is not put beside the next', () => {
    const { tray, outcomes } = scan([DI, PRODUCTION, ']C11728013110OTHER', DI]);
    expect(kinds(outcomes)).toEqual(['new', 'joined', 'waits', 'new']);
    expect(labels(tray).map(([, lot]) => lot)).toEqual(['IN1815', 'OTHER']);
  });

  it('a serial number that comes again asks, and stays one device whatever is said', () => {
    for (const answer of ['y', 'n']) {
      const { tray, outcomes } = scan([gs1('A1', 'S1'), gs1('A1', 'S1'), answer]);
      expect(outcomes[1]).toEqual({ kind: 'asks', device: 0, serial: true });
      expect(kinds(outcomes)[2]).toBe('not-counted');
      expect(labels(tray)).toEqual([['09520005001228', 'A1', 'S1', '2027-05-31', 1]]);
    }
  });

  it('one that the record has already asks too', () => {
    const { tray, outcomes } = scan([gs1('A1', 'S1')], { known: new Set(['09520005001228 S1']) });
    expect([outcomes[0]?.kind, tray.devices]).toEqual(['asks', []]);
  });

  it('a label without serial number that comes again is counted when somebody says so', () => {
    expect(labels(scan([gs1('A1'), gs1('A1'), 'yes', gs1('A1'), 'n']).tray).map(([, , , , n]) => n)).toEqual([
      2,
    ]);
    // Passed over: the next scan counts for itself.
    expect(labels(scan([gs1('A1'), gs1('A1'), gs1('A2')]).tray).map(([, , , , n]) => n)).toEqual([1, 1]);
  });

  it('a scanner that reads an identifier twice makes no second device by itself', () => {
    const { tray, outcomes } = scan([DI, DI, PRODUCTION]);
    expect(kinds(outcomes)).toEqual(['new', 'asks', 'joined']);
    expect(tray.devices.length).toBe(1);
  });

  it('a kind that is typed names the device scanned last', () => {
    const { tray, outcomes } = scan(['guidewire', gs1('A1'), 'access needle']);
    expect(kinds(outcomes)).toEqual(['not-read', 'new', 'named']);
    expect(tray.devices[0]?.kind).toBe('access needle');
  });

  it('everything is taken back, one by one', () => {
    const lines = [DI, PRODUCTION, 'guidewire', gs1('A9'), gs1('A9'), 'y'];
    const { tray } = scan([...lines, 'undo']);
    expect(labels(tray).map(([, , , , n]) => n)).toEqual([1, 1]);
    const { tray: empty, outcomes } = scan([...lines, ...Array.from({ length: 9 }, () => 'undo')]);
    expect([empty.devices, kinds(outcomes).at(-1)]).toEqual([[], 'nothing']);
  });

  it('takes anything at all without a fault, and adds nothing that it cannot read', () => {
    const piece = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc.constantFrom(
        DI,
        PRODUCTION,
        gs1('A1'),
        gs1('A1', 'S1'),
        'y',
        'n',
        'undo',
        'guidewire',
        ...HIBC,
        '',
        `+${'9'.repeat(5000)}`,
      ),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), lines => {
        const { tray, outcomes } = scan(lines);
        expect(outcomes.length).toBe(lines.length);
        expect(tray.devices.every(({ label }) => label.di !== undefined)).toBe(true);
        const serials = tray.devices.flatMap(({ label: { di, serial } }) =>
          serial ? [`${di} ${serial}`] : [],
        );
        expect(new Set(serials).size).toBe(serials.length);
      }),
      { numRuns: 300 },
    );
  });
});

describe('what scanning gives to a record', () => {
  const row = (more: Partial<CatalogueRow>): ReadonlyMap<string, CatalogueRow> =>
    new Map([['09520005001228', { di: '09520005001228', line: 2, ...more }]]);
  const at = '2026-06-01T08:12:00+02:00';
  const give = (
    lines: readonly string[],
    there: readonly DeviceThere[] = [],
    rows = row({ kind: 'access needle' }),
  ) => {
    const { contribution, keys } = scanContribution(scan(lines).tray, there, rows, at);
    return { keys, values: contribution.values.map(({ path, value }) => [path.join('.'), value]) };
  };

  it('is a device with its kind from the catalogue and its label as it was scanned', () => {
    expect(give([gs1('A1'), gs1('A2')])).toEqual({
      keys: ['access-needle', 'access-needle-2'],
      values: [
        ['devices.access-needle.kind', 'access needle'],
        ['devices.access-needle.label', gs1('A1')],
        ['devices.access-needle-2.kind', 'access needle'],
        ['devices.access-needle-2.label', gs1('A2')],
      ],
    });
  });

  it('goes to the one device of that kind that has no label yet', () => {
    const needle = { key: 'needle', kind: 'needle, access', identified: false };
    const wire = { key: 'wire', kind: 'guidewire', identified: false };
    const there = [{ ...needle, kind: 'access needle' }, wire];
    expect(give([gs1('A1'), gs1('A2')], there).values).toEqual([
      ['devices.needle.label', gs1('A1')],
      ['devices.access-needle.kind', 'access needle'],
      ['devices.access-needle.label', gs1('A2')],
    ]);
  });

  it('goes to neither of two, and to none that is another by its catalogue number or has a label', () => {
    const one = { key: 'a', kind: 'access needle', identified: false };
    expect(give([gs1('A1')], [one, { ...one, key: 'b' }]).keys).toEqual(['access-needle']);
    const numbered = row({ kind: 'access needle', reference: 'R-1' });
    expect(give([gs1('A1')], [{ ...one, reference: 'R-2' }], numbered).keys).toEqual(['access-needle']);
    expect(give([gs1('A1')], [{ ...one, identified: true }]).keys).toEqual(['access-needle']);
  });

  it('leaves out what nobody names', () => {
    expect(give([gs1('A1')], [], row({}))).toEqual({ keys: [undefined], values: [] });
    expect(give([gs1('A1'), 'guidewire'], [], row({})).keys).toEqual(['guidewire']);
  });

  it('says how many alike, and both symbols of one label', () => {
    expect(give([gs1('A1'), gs1('A1'), 'y']).values.at(-1)).toEqual(['devices.access-needle.count', '2']);
    expect(give([DI, PRODUCTION]).values[1]).toEqual([
      'devices.access-needle.label',
      '(01)09520005001228(17)270531(10)IN1815',
    ]);
  });
});
