import { readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { ticks, wallClock } from '../../../src/devices/timeline/clock.js';
import { escapeXml } from '../../../src/devices/timeline/draw.js';
import { timelineSvg } from '../../../src/devices/timeline/svg.js';
import { timelineText } from '../../../src/devices/timeline/text.js';
import { timelineOf } from '../../../src/devices/timeline/timeline.js';
import { parseCase } from '../../../src/record/parse.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import { recordOf } from '../../cases/record.js';

const made = (record: CaseRecord) => {
  const { devices } = describeDevices(record);
  return timelineOf(record, devices, tallyDevices(record, devices));
};

const example = (name: string) => {
  const parsed = parseCase(readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), 'utf8'));
  if (!parsed.record) throw new Error(`${name} cannot be read`);
  return made(parsed.record);
};

interface Tag {
  name: string;
  attributes: Record<string, string>;
}

/** Every element of the picture, read by an XML parser that refuses what is not well formed. */
function tagsOf(svg: string): Tag[] {
  const tags: Tag[] = [];
  const parser = new SaxesParser({ xmlns: false });
  parser.on('opentag', tag =>
    tags.push({ name: tag.name, attributes: tag.attributes as Record<string, string> }),
  );
  parser.on('error', error => {
    throw error;
  });
  parser.write(svg).close();
  return tags;
}

const small = {
  devices: {
    wire: { kind: 'guidewire', diameter: '0.035 in' },
    old: { kind: 'drain', size: '8 Fr', carried: { date: '2024-01-02' } },
    balloon: { kind: 'balloon catheter', size: '8 x 40 mm' },
    drain: { kind: 'drain', size: '10 Fr' },
    stent: { kind: 'stent', size: '8 x 60 mm' },
    lost: { kind: 'introducer sheath' },
    spare: { kind: 'guidewire', use: 'unopened' },
  },
  events: [
    { at: '09:00', do: 'insert', device: 'wire' },
    { at: '09:05', do: 'exchange', device: 'drain', replaces: 'old', over: 'wire' },
    { at: '09:06', do: 'insert', device: 'balloon' },
    { at: '09:07', do: 'inflate', device: 'balloon', pressure: '10 atm', duration: '120 s' },
    { at: '09:12', do: 'remove', device: 'balloon' },
    { at: '09:15', do: 'deploy', device: 'stent' },
    { at: '09:16', do: 'insert', device: 'lost' },
    { at: '09:20', do: 'remove', device: 'wire' },
  ],
  left: [
    { device: 'drain', latest: '8 weeks' },
    { device: 'stent', purpose: 'intended' },
  ],
};

describe('the timeline', () => {
  const timeline = made(recordOf(small));
  const row = (key: string) => timeline.rows.find(one => one.key === key)!;
  const at = (text: string) => Date.parse(`2024-03-14T${text}:00Z`);

  it('has a bar from insertion to removal, open where a device came with or stays', () => {
    expect(row('wire').bars).toEqual([{ from: at('09:00'), to: at('09:20'), count: 1 }]);
    expect(row('old').bars).toEqual([{ to: at('09:05'), count: 1 }]);
    expect(row('drain').bars).toEqual([{ from: at('09:05'), count: 1 }]);
  });

  it('marks exchanges, inflations and what was placed', () => {
    expect(row('old').marks).toEqual([
      { kind: 'exchange', from: at('09:05'), words: 'exchanged for 10 Fr drain', partner: 'drain' },
    ]);
    expect(row('balloon').marks).toEqual([
      { kind: 'inflation', from: at('09:07'), to: at('09:09'), words: 'inflated to 10 atm' },
    ]);
    expect(row('stent').marks.map(mark => mark.kind)).toEqual(['placed']);
  });

  it('says how each row ends and keeps what was never in apart', () => {
    expect(timeline.rows.map(one => [one.key, one.end])).toEqual([
      ['old', 'out'],
      ['wire', 'out'],
      ['drain', 'inside'],
      ['balloon', 'out'],
      ['stent', 'inside'],
      ['lost', 'unaccounted'],
    ]);
    expect(timeline.unused).toEqual(['guidewire (not opened)']);
  });

  it('reads in words', () => {
    expect(timelineText(timeline)).toMatchInlineSnapshot(`
      "Devices of case T-1, 2024-03-14, 08:00 to 09:20.
      Still inside at the end: 10 Fr drain, to come out later; 8 mm x 60 mm stent, meant to stay.
      Not accounted for, may be inside: introducer sheath.
      8 Fr drain: in before the case, out at 09:05; exchanged for 10 Fr drain at 09:05.
      0.035 in guidewire: in at 09:00, out at 09:20.
      10 Fr drain: in at 09:05; still inside, to come out later.
      8 mm x 40 mm balloon catheter: in at 09:06, out at 09:12; inflated to 10 atm at 09:07.
      8 mm x 60 mm stent: in at 09:15; deployed at 09:15; still inside, meant to stay.
      introducer sheath: in at 09:16; NOT ACCOUNTED FOR.
      Not used: guidewire (not opened).
      "
    `);
  });

  it('says how many went in', () => {
    const coils = example('embolisation').rows.find(one => one.key === 'coils');
    expect(coils?.bars.map(bar => bar.count)).toEqual([4]);
  });

  it('starts the row of a broken tip at the break', () => {
    const broken = example('fractured-wire-tip');
    const tip = broken.rows.find(one => one.part !== undefined && one.end === 'retained')!;
    const wire = broken.rows.find(one => one.key === tip.device)!;
    expect(tip.bars[0]?.from).toBe(wire.marks.find(mark => mark.kind === 'broken')?.from);
    expect(tip.bars[0]?.to).toBeUndefined();
  });

  it('is empty, not broken, without events', () => {
    const empty = made(recordOf({ case: { started: undefined } }));
    expect(empty.rows).toEqual([]);
    expect(tagsOf(timelineSvg(empty)).length).toBeGreaterThan(5);
    expect(timelineText(empty)).toContain('Nothing is left inside.');
  });
});

describe('the picture', () => {
  it('is well-formed, named for a screen reader, and brings nothing from outside', () => {
    const svg = timelineSvg(made(recordOf(small)), { idPrefix: 'case-1' });
    const tags = tagsOf(svg);
    const root = tags[0]!;
    expect(root.attributes).toMatchObject({ role: 'img', 'aria-labelledby': 'case-1-title case-1-desc' });
    expect(tags.map(tag => tag.attributes['id']).filter(Boolean)).toEqual(
      expect.arrayContaining(['case-1-title', 'case-1-desc', 'case-1-inflated', 'case-1-retained']),
    );
    const allowed = ['svg', 'title', 'desc', 'defs', 'pattern', 'rect', 'path', 'text', 'g'];
    expect(tags.map(tag => tag.name).filter(name => !allowed.includes(name))).toEqual([]);
    const names = tags.flatMap(tag => Object.keys(tag.attributes));
    expect(names.filter(name => name.startsWith('on') || /href|style|class/.test(name))).toEqual([]);
    const urls = tags.flatMap(tag => Object.values(tag.attributes)).filter(value => value.includes('url('));
    expect(urls.every(url => url.startsWith('url(#case-1-'))).toBe(true);
  });

  it('uses greys only', () => {
    const colours = tagsOf(timelineSvg(made(recordOf(small))))
      .flatMap(tag => [tag.attributes['fill'], tag.attributes['stroke']])
      .filter((value): value is string => value?.startsWith('#') ?? false);
    expect(
      colours.filter(
        colour => colour.slice(1, 3) !== colour.slice(3, 5) || colour.slice(3, 5) !== colour.slice(5),
      ),
    ).toEqual([]);
  });

  it('does not let a record write markup', () => {
    const kind = `drain"><script>alert('1')</script>&amp;`;
    const svg = timelineSvg(
      made(
        recordOf({
          devices: { d: { kind, family: 'drain' } },
          events: [{ at: '09:00', do: 'insert', device: 'd' }],
          left: 'none',
        }),
      ),
    );
    expect(tagsOf(svg).map(tag => tag.name)).not.toContain('script');
    expect(svg).toContain('&lt;script&gt;');
  });

  it('writes only characters that XML allows', () => {
    expect(escapeXml('a\u0000b\u0001c\ud800d\ufffee')).toBe('abcde');
    expect(escapeXml('\u{1F600} µ < " \'')).toBe('\u{1F600} µ &lt; &quot; &#39;');
  });

  it('is the same each time', () => {
    expect(timelineSvg(example('embolisation'))).toBe(timelineSvg(example('embolisation')));
  });

  it('keeps every bar inside the frame, and runs past the end line only where a device is inside', () => {
    for (const name of [
      'biliary-drainage-and-stent',
      'embolisation',
      'fractured-wire-tip',
      'ureteric-stent-tumour',
    ]) {
      const timeline = example(name);
      const open = timeline.rows.flatMap(row => row.bars).filter(bar => bar.to === undefined).length;
      const past = tagsOf(timelineSvg(timeline)).filter(
        tag => tag.name === 'path' && /H762L772/.test(tag.attributes['d'] ?? ''),
      );
      expect(past.length, name).toBe(open);
    }
  });
});

describe('the wall clock', () => {
  it('shows the hour that came twice twice, and the next day', () => {
    const timeline = example('embolisation');
    const shown = timeline.rows.flatMap(row => row.bars).map(bar => timeline.clock.time(bar.from ?? 0));
    expect(shown).toContain('23:40');
    expect(shown).toContain('01:10');
    expect(timeline.clock.date(timeline.to)).not.toBe(timeline.clock.date(timeline.from));
  });

  it('has no more labels than asked for, on whole steps', () => {
    const clock = wallClock([]);
    for (const minutes of [1, 7, 33, 95, 300, 1500]) {
      const found = ticks(0, minutes * 60_000, 8);
      expect(found.length).toBeLessThanOrEqual(9);
      expect(found.length).toBeGreaterThan(0);
    }
    expect(ticks(0, 95 * 60_000, 8).map(clock.time)).toEqual([
      '00:00',
      '00:15',
      '00:30',
      '00:45',
      '01:00',
      '01:15',
      '01:30',
    ]);
  });
});
