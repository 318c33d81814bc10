import { isInside, type TallyEntry } from '../../devices/types.js';
import type { WordKey } from '../../findings/languages.js';
import { died } from '../../record/died.js';
import { entriesOf } from '../../record/entries.js';
import { grouped } from '../../record/grouped.js';
import { rememberedOf } from '../../record/remembered.js';
import type { Term } from '../../record/schema/fields.js';
import type { LeftEntry } from '../../record/schema/record.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, none, type Stated, said, section, table, written } from './blocks.js';
import type { Fact, InsideItem, Section } from './model.js';
import { termText } from './terms.js';

/** One line of the account of what is inside: from the tally, from the record's `left`, or from both. */
export interface Inside {
  readonly key: string;
  readonly device: string;
  readonly part?: string | undefined;
  /** Parts that are told with it. */
  readonly parts?: readonly string[];
  readonly tally?: TallyEntry;
  readonly left?: LeftEntry;
}

/** What the tally finds inside, then what the record says was left and the tally does not know of. */
export const insideOf = rememberedOf((p: Printer): readonly Inside[] => {
  const tallied = p.assessment.tally.entries
    .filter(entry => isInside(entry.state))
    .map(
      (tally): Inside => ({
        key: tally.part === undefined ? tally.device : `${tally.device}.${tally.part}`,
        device: tally.device,
        part: tally.part,
        tally,
        ...(tally.left && { left: tally.left.entry }),
      }),
    );
  const known = new Set(tallied.flatMap(entry => entry.tally?.left?.index ?? []));
  const left = entriesOf(p.record.left);
  const untold = left.flatMap((entry, index): Inside[] =>
    known.has(index) ? [] : [{ key: `left[${index}]`, device: entry.device, part: entry.part, left: entry }],
  );
  return fold([...oncePerLine(tallied), ...untold]);
});

/** Some of a device that were lost and others that are where nobody wanted them are one entry of the record's `left`. */
function oncePerLine(list: readonly Inside[]): Inside[] {
  const lines = grouped(list, one =>
    one.tally?.left ? JSON.stringify([one.tally.left.index, one.tally.state]) : one,
  );
  return [...lines.values()].flatMap(([first, ...others]) => {
    if (!first?.tally || others.length === 0) return first ?? [];
    const count = others.reduce((sum, { tally }) => sum + (tally?.count ?? 0), first.tally.count);
    return { ...first, tally: { ...first.tally, count } };
  });
}

/** The same by device. */
export const insideBy = rememberedOf((p: Printer) => grouped(insideOf(p), ({ device }) => device));

/** A part that lies where its device lies, in the same state, is told with the device. */
function fold(list: readonly Inside[]): Inside[] {
  const whole = grouped(list, one =>
    one.part === undefined && one.tally?.count === 1 ? one.device : undefined,
  );
  const host = (entry: Inside) =>
    entry.part === undefined || entry.left
      ? undefined
      : whole.get(entry.device)?.find(other => other.tally?.state === entry.tally?.state);
  const parts = grouped(list, host);
  return list
    .filter(entry => !host(entry))
    .map(entry => ({ ...entry, parts: (parts.get(entry) ?? []).flatMap(({ part }) => part ?? []) }));
}

/** `With its retention thread`. */
function partLines(p: Printer, { device, parts }: Inside): string[] {
  return (parts ?? []).map(part => p.say('inside.part', { value: p.partKind(device, part) }));
}

function lies(p: Printer, { tally, left, device }: Inside): string | undefined {
  const site = left?.site ?? tally?.site ?? p.record.devices?.[device]?.carried?.site;
  return site && p.place(site.text);
}

function setLines(p: Printer, { left }: Inside): string[] {
  return [
    ...(left?.set === undefined ? [] : [p.say('inside.set', { value: left.set })]),
    ...(left?.fixedBy === undefined ? [] : [p.say('inside.fixed', { value: p.thing(left.fixedBy) })]),
    ...(left?.depth ? [p.say('inside.depth', { value: p.quantity(left.depth) })] : []),
    ...(left?.tip === undefined ? [] : [p.say('inside.tip', { value: left.tip })]),
    ...(left?.lock ? [p.say('inside.lock', { value: lockText(p, left.lock) })] : []),
  ];
}

const coroner = (p: Printer) => (p.record.outcome?.coroner ? [p.say('inside.coroner')] : []);

function lockText(p: Printer, { solution, volume }: NonNullable<LeftEntry['lock']>): string {
  return volume ? p.say('inside.lockVolume', { solution, volume: p.quantity(volume) }) : solution;
}

/** A device that is meant to stay is reviewed on its date; another one comes out or is changed. */
function untilLines(p: Printer, { left, tally }: Inside): string[] {
  const stays = tally ? tally.state === 'in situ intended' : left?.purpose === 'intended';
  const term = (key: WordKey, value: Term | undefined) =>
    value ? [p.say(key, { value: termText(p, value) })] : [];
  return [
    ...coroner(p),
    ...(left?.until?.condition === undefined
      ? []
      : [p.say(stays ? 'inside.reviewWhen' : 'inside.condition', { value: left.until.condition })]),
    ...term(stays ? 'inside.reviewDate' : 'inside.date', left?.until?.date),
    ...term('inside.latest', left?.latest),
  ];
}

function stateOf(p: Printer, { tally, left }: Inside): string {
  if (tally) return p.say(`state.${tally.state}`);
  return left?.purpose ? p.say(`meant.${left.purpose}`) : p.say('absent.notRecorded');
}

function nameOf(p: Printer, entry: Inside): string {
  const name = p.piece(entry.device, entry.part);
  const n = entry.left?.count ?? entry.tally?.count ?? 1;
  return n > 1 ? p.say('name.count', { name, n: String(n) }) : name;
}

/** MRI safety of what stays is asked for years later, so its absence is said too. */
function mri(p: Printer, { device, part }: Inside): string[] {
  if (part !== undefined) return [];
  const text = p.assessment.devices.get(device)?.mri ?? p.record.devices?.[device]?.mri;
  return [text === undefined ? p.say('inside.mriUnknown') : p.say('inside.mri', { value: text })];
}

export const isAlarm = ({ tally, left }: Inside) =>
  tally?.state === 'retained unintended' || left?.purpose === 'unintended';

export function insideItems(p: Printer): InsideItem[] {
  return insideOf(p).map(entry => {
    const site = lies(p, entry);
    return {
      key: entry.key,
      name: nameOf(p, entry),
      state: stateOf(p, entry),
      alert: isAlarm(entry),
      lines: [
        ...(site === undefined ? [] : [p.say('inside.site', { value: site })]),
        ...partLines(p, entry),
        setLines(p, entry).join('; '),
        (died(p.record) ? coroner(p) : untilLines(p, entry)).join('; '),
        ...(entry.left?.note === undefined ? [] : [entry.left.note]),
        ...mri(p, entry),
      ].flatMap(written),
    };
  });
}

/** One line a thing, or that nothing stays, or that nobody said. */
export function insideFact(p: Printer): Fact {
  return fact(p, 'inside', stated(p));
}

function stated(p: Printer): Stated {
  const list = insideOf(p);
  if (list.length > 0)
    return said(...list.map(entry => p.say('field', { label: nameOf(p, entry), value: stateOf(p, entry) })));
  if (p.record.left === 'none') return none(p, 'left.none');
  return absent(p, true);
}

/** `LEFT INSIDE, NOT INTENDED: tip of 0.035 in guidewire.`, where there is such a thing. */
export function insideNotice(p: Printer): string[] {
  const names = insideOf(p)
    .filter(isAlarm)
    .map(entry => nameOf(p, entry));
  return names.length === 0 ? [] : [p.say('notice.retained', { list: p.list(names) })];
}

export function insideSection(p: Printer): Section {
  const list = insideOf(p);
  if (list.length === 0) return section(p, 'inside', [facts(p, undefined, [insideFact(p)])]);
  return section(p, 'inside', [
    table(
      p,
      'section.inside',
      ['device', 'lies', 'set', 'until'],
      list.map(entry => ({
        key: entry.key,
        cells: [
          [nameOf(p, entry), stateOf(p, entry), ...partLines(p, entry), ...mri(p, entry)],
          lies(p, entry),
          [...setLines(p, entry), entry.left?.note],
          untilLines(p, entry),
        ],
        alert: isAlarm(entry),
      })),
      true,
    ),
  ]);
}
