import { describe, expect, it } from 'vitest';
import { MOST_LINES, readLines } from '../../../src/intake/lines/read.js';
import type { ListedDevice } from '../../../src/intake/lines/types.js';

/** Common practice, no source: what people say at the table that must never stand as an event by itself. */
const devices: readonly ListedDevice[] = [
  { key: 'wire', kind: 'guidewire', diameter: '0.035 in', inside: 1 },
  { key: 'stiff', kind: 'stiff guidewire', diameter: '0.035 in' },
  { key: 'sheath', kind: 'introducer sheath', size: '6 Fr', inside: 1 },
  { key: 'cath', kind: 'diagnostic catheter', size: '5 Fr', inside: 1 },
  { key: 'balloon', kind: 'angioplasty balloon', size: '6 mm x 40 mm' },
  { key: 'stent', kind: 'self-expanding stent', size: '8 mm x 60 mm' },
  { key: 'drain', kind: 'drainage catheter', size: '10 Fr' },
  { key: 'old', kind: 'nephrostomy catheter', size: '8 Fr', inside: 1 },
  { key: 'coils', kind: 'coil', size: '4 mm x 60 mm', count: 3 },
];

const sure = (lines: readonly string[]) =>
  readLines(lines, { devices })
    .readings.filter(
      ({ certainty, events, drugs }) => certainty === 'understood' && events.length + drugs.length > 0,
    )
    .map(({ line, events, drugs }) => ({ line, events, drugs }));

describe('what gives no event that is not marked', () => {
  const said: Readonly<Record<string, readonly string[]>> = {
    denials: [
      '10:01 no wire was left',
      '10:02 stent not deployed',
      '10:03 never inflated the balloon',
      "10:04 didn't take the sheath out",
      '10:05 balloon was not needed',
      '10:06 decided against the stent',
      '10:07 drain in without locking it',
      '10:08 neither wire nor catheter out',
      '10:09 no heparin 5000 units IV given',
      '10:10 nothing removed',
      '10:11 stent omitted',
      '10:12 wire out? no, still in',
      "10:13 the wire hasn't come out",
      '10:14 balloon 6 by 40 not used',
      '10:15 sheath removal deferred',
      '10:16 no, the catheter out',
      '10:17 removal of the sheath cancelled',
    ],
    plans: [
      '11:01 will need the stent',
      '11:02 plan to deploy the stent at 10 atm',
      '11:03 if it fails balloon in over the wire',
      '11:04 going to take the wire out',
      '11:05 ready to deploy the stent',
      "11:06 let's get the sheath out",
      '11:07 sheath out in an hour',
      '11:08 drain out tomorrow',
      '11:09 wire to be removed',
      '11:10 next the balloon goes in',
      '11:11 stent might be deployed later',
      '11:12 prepare to inflate the balloon to 8 atm',
      '11:13 would like the stiff wire in',
      '11:14 heparin 5000 units IV due at 12',
      '11:15 about to pull the wire',
      '11:16 please take the catheter out',
      '11:17 ask for the balloon to be inflated',
      '11:18 sheath can come out',
      '11:19 balloon should go in over the wire',
      '11:20 before removing the wire',
    ],
    tries: [
      '12:02 tried to pass the balloon over the wire',
      '12:03 balloon would not go over the wire',
      '12:04 attempted to snare the wire',
      '12:05 failed to deploy the stent',
      '12:06 stent half deployed',
      '12:07 wire almost out',
      '12:08 catheter partly withdrawn',
      '12:09 balloon nearly across the stenosis',
      '12:10 stent stuck in the sheath',
      '12:11 struggled to remove the sheath',
    ],
    history: [
      '13:01 old drain from March in place',
      '13:02 nephrostomy removed last week',
      '13:03 previously stent deployed in the iliac artery',
      '13:04 sheath removed yesterday',
      '13:05 catheter out two days ago',
      '13:06 balloon inflated at the last session',
      '13:07 drain exchanged in March',
    ],
    others: [
      '14:01 other team took the drain out',
      '14:02 next patient has a stent deployed',
      '14:03 patient in bed 3 had the sheath removed',
      '14:04 drain removed by the ward',
      '14:05 surgeon removed the drain',
      '14:06 another patient needs a wire through the sheath',
    ],
    questions: [
      '15:01 is the wire out?',
      '15:02 wire out?',
      '15:03 have we taken the sheath out',
      '15:04 was the balloon deflated',
      '15:05 should we pull the catheter',
      '15:06 who removed the wire',
      '15:07 when did the catheter come out',
      '15:08 can you take the wire out',
      '15:09 shall I inflate to 10 atm',
      '15:10 why is the wire out',
    ],
    halves: [
      '16:01 wire or catheter out',
      '16:02 part of the wire out',
      '16:03 everything but the wire out',
      '16:04 wire out except the tip',
      '16:05 most of the catheter out',
      '16:06 I think the wire is out',
      '16:07 wire probably out',
      '16:08 wire out I guess',
      '16:09 wire supposedly out',
      '16:10 balloon up or down',
      '16:11 pretend the wire is out',
      '16:12 wire out, scratch that',
      '16:13 ignore that, wire out',
      '16:14 wire out as a joke',
    ],
    marks: [
      '17:01 <script>wire out</script>',
      '17:02 wire out; DROP TABLE events',
      '17:03 [wire out](http://example.org)',
      '17:04 {"do":"remove","device":"wire"}',
      '17:05 wire = out',
      '17:06 wire out 👍',
      '17:07 провод out',
      '17:08 wire 出',
      '17:09 سلك out wire',
      '17:10 w\u0456re out',
      '17:11 wire\u200bout',
      '17:12 wire \u202eout',
      '17:13 $(wire) out',
      '17:14 wire out %0a sheath out',
    ],
  };

  for (const [what, lines] of Object.entries(said))
    it(what, () => {
      // Each by itself, and all after one another.
      expect(lines.flatMap(line => sure([line]))).toEqual([]);
      expect(sure(lines)).toEqual([]);
    });

  it('no line is read beyond its longest, nor a call beyond its most', () => {
    const { readings, findings } = readLines([`10:00 wire out ${'x'.repeat(10_000)}`], { devices });
    expect([readings[0]?.events, findings.map(({ code }) => code)]).toEqual([[], ['lines.too-long']]);
    const many = readLines(
      Array.from({ length: 2_000 }, () => '10:00 wire out'),
      { devices },
    );
    expect(many.readings.length).toBe(MOST_LINES);
    // The wire comes out once: that it does again is said.
    expect(many.readings.filter(({ certainty }) => certainty === 'understood').length).toBe(1);
  });
});

describe('slips of the keyboard', () => {
  it('are put right, and marked', () => {
    const [reading] = readLines(['10:00 cathter removd'], { devices }).readings;
    expect(reading?.events).toEqual([{ at: '10:00', do: 'remove', device: 'cath' }]);
    expect(reading?.certainty).toBe('uncertain');
  });

  it('no word of another meaning is taken for one', () => {
    for (const line of ['10:00 heater out', '10:00 stunt deployed', '10:00 sheathed out'])
      expect(readLines([line], { devices }).readings[0]?.certainty, line).not.toBe('understood');
  });
});

describe('what an uncertain line left open', () => {
  it('makes lines uncertain that would build upon it', () => {
    const two: readonly ListedDevice[] = [
      { key: 'a', kind: 'angioplasty balloon', size: '6 mm x 40 mm' },
      { key: 'b', kind: 'angioplasty balloon', size: '7 mm x 40 mm' },
      { key: 'wire', kind: 'guidewire', inside: 1 },
    ];
    const { readings } = readLines(
      ['10:00 balloon in', '10:01 7 mm balloon over the wire', '10:02 balloon out'],
      {
        devices: two,
      },
    );
    expect(readings.map(({ certainty }) => certainty)).not.toContain('not understood');
    expect(readings[2]?.certainty).toBe('uncertain');
  });
});
