import { eventsMoving } from '../../devices/by-device.js';
import { type Finding, finding } from '../../findings/finding.js';
import { convert } from '../../record/quantity.js';
import type { CaseEvent, CaseRecord, LeftEntry } from '../../record/schema/record.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { isClosed } from '../../trade/places.js';

interface At {
  readonly event: CaseEvent;
  readonly path: string;
}

/** Setting, depth and fixation of what is left, against the last event that says each of the device. */
export function checkLeft(record: CaseRecord): Finding[] {
  if (record.left === undefined || record.left === 'none') return [];
  return record.left.flatMap((entry, i) => {
    if (entry.part !== undefined) return [];
    const events = eventsOf(record, entry.device);
    const path = `left[${i}]`;
    return [
      ...setting(entry, path, events),
      ...lock(entry, path, events),
      ...tip(entry, path, events),
      ...depth(entry, path, events),
      ...fixation(entry, path, events),
    ];
  });
}

/** Events of one device, the last first. */
function eventsOf(record: CaseRecord, device: string): readonly At[] {
  return eventsMoving(record, device)
    .filter(({ event }) => event.device === device && event.part === undefined)
    .reverse()
    .sort((a, b) => b.event.at.epoch - a.event.at.epoch);
}

const differs = (path: string, left: string, said: string, event: At): Finding =>
  finding('tally.left-differs', path, { left, event: said, time: event.event.at.clock });

/** Settings that rule each other out. */
const flows: readonly (readonly [name: string, words: RegExp])[] = [
  ['suction', /\bsuction\b|\bvacuum\b/i],
  ['seal', /\bunderwater seal\b|\bwater seal\b|\bone-way valve\b|\bflutter valve\b/i],
  [
    'free',
    /\bfree(?:ly)? drain(?:age|ing)\b|\bon free\b|\bopen\b|\bgravity\b|\binto a bag\b|\bto a bag\b|\bunclamped\b|\buncapped\b/i,
  ],
];

/** A setting that changes later is none that can be held against another. */
const changing = /\b(?:then|until|after|later|alternat\w+|once|when|if)\b/i;

function flowOf(text: string): string | undefined {
  if (changing.test(text)) return undefined;
  const found = flows.filter(([, words]) => words.test(text)).map(([name]) => name);
  if (found.length === 1 && !isClosed(text)) return found[0];
  return found.length === 0 && isClosed(text) ? 'closed' : undefined;
}

const fluids = (text: string): ReadonlySet<string> => {
  const words = text.toLowerCase();
  const named = [
    'heparin',
    'citrate',
    'saline',
    'taurolidine',
    'ethanol',
    'alteplase',
    'urokinase',
    'antibiotic',
  ];
  return new Set([
    ...named.filter(name => new RegExp(`(?<!no |not |without )\\b${name}\\b`).test(words)),
    ...drugsIn(text).map(({ name }) => (name === 'sodium chloride' ? 'saline' : name)),
  ]);
};

/** What fills a lumen at the end; a flush with saline goes before it. */
const fills = (event: CaseEvent): boolean =>
  event.do === 'set' ||
  event.do === 'lock' ||
  (event.do === 'inject' && /\b(?:lock|citrate|taurolidine)\b/i.test(event.agent ?? ''));

const shut = /(?<!\bnot )\b(?:capped|clamped|closed|spigot\w*)\b/i;

/** The setting of each arm, port or lumen that a text names: `jejunal port capped and gastric port on drainage`. */
function byArm(text: string): ReadonlyMap<string, string> {
  const clauses = text.split(/[,;]|\band\b|\bwhile\b/i);
  return new Map(
    clauses.flatMap(clause => {
      const arm =
        /\b(gastric|jejunal|feeding|balloon|arterial|venous|red|blue|white|distal|proximal|medial|lateral|internal|external|left|right|upper|lower)\b(?=(?: \w+)? (?:port|arm|lumen|limb|hub|end|drain|tube)s?\b)/i.exec(
          clause,
        )?.[1];
      const flow = flowOf(clause) ?? (shut.test(clause) ? 'closed' : undefined);
      return arm !== undefined && flow !== undefined ? [[arm.toLowerCase(), flow] as const] : [];
    }),
  );
}

function setting(entry: LeftEntry, path: string, events: readonly At[]): Finding[] {
  if (entry.set === undefined) return [];
  const last = events.find(({ event }) => event.to !== undefined);
  const arms = byArm(entry.set);
  const were = byArm(last?.event.to ?? '');
  if (last && [...arms].some(([arm, flow]) => were.has(arm) && were.get(arm) !== flow))
    return [differs(`${path}.set`, entry.set, last.event.to ?? '', last)];
  const left = flowOf(entry.set);
  const then = last && flowOf(last.event.to ?? '');
  if (last && left !== undefined && then !== undefined && left !== then)
    return [differs(`${path}.set`, entry.set, last.event.to ?? '', last)];
  const inLeft = fluids(entry.set);
  const lastFluid = events.find(
    ({ event }) => fills(event) && fluids(event.to ?? event.agent ?? '').size > 0,
  );
  if (!lastFluid || inLeft.size === 0 || changing.test(entry.set)) return [];
  const said = lastFluid.event.to ?? lastFluid.event.agent ?? '';
  return [...fluids(said)].some(name => inLeft.has(name))
    ? []
    : [differs(`${path}.set`, entry.set, said, lastFluid)];
}

/** What a catheter is locked with is what went into it last, once or once for each lumen. */
function lock(entry: LeftEntry, path: string, events: readonly At[]): Finding[] {
  const own = entry.lock?.volume && convert(entry.lock.volume, 'mL');
  const last = events.find(({ event }) => fills(event) && event.volume !== undefined);
  const then = last?.event.volume && convert(last.event.volume, 'mL');
  if (!own || !last || !then || own.lte(0)) return [];
  // One entry may stand for each lumen or for all.
  const ratio = then.div(own);
  if (['0.33', '0.5', '1', '2', '3'].some(times => ratio.minus(times).abs().lte('0.12'))) return [];
  return [
    finding('tally.left-differs', `${path}.lock.volume`, {
      left: { quantity: entry.lock?.volume ?? { value: '', unit: '', code: '' } },
      event: { quantity: last.event.volume ?? { value: '', unit: '', code: '' } },
      time: last.event.at.clock,
    }),
  ];
}

/** Where a tip can lie, each apart from the others. The first that fits counts. Common practice, no source. */
const tips: readonly (readonly [name: string, words: RegExp])[] = [
  ['jejunum', /\bjejun\w+/i],
  ['duodenum', /\bduoden\w+/i],
  ['stomach', /\b(?:stomach|gastric)\b/i],
  ['heart', /\b(?:cavoatrial|caval?|cava|atri\w+)\b/i],
  ['arm or neck', /\b(?:subclavian|brachiocephalic|innominate|axillary|jugular|basilic|cephalic)\b/i],
  ['leg', /\b(?:iliac|femoral)\b/i],
  ['bladder', /\bbladder\b(?<!gall ?bladder)/i],
  ['kidney', /\b(?:renal pelvis|kidney|calyx|ureter)\b/i],
];
const tipIn = (text: string) => tips.find(([, words]) => words.test(text))?.[0];

function tip(entry: LeftEntry, path: string, events: readonly At[]): Finding[] {
  const own = tipIn(entry.tip ?? '');
  const last = events.find(({ event }) => event.into !== undefined && event.do !== 'remove');
  const then = tipIn(last?.event.into?.text ?? '');
  return own !== undefined && last && then !== undefined && own !== then
    ? [differs(`${path}.tip`, entry.tip ?? '', last.event.into?.text ?? '', last)]
    : [];
}

const moves = new Set(['advance', 'withdraw', 'reposition', 'cut']);

function depth(entry: LeftEntry, path: string, events: readonly At[]): Finding[] {
  if (!entry.depth) return [];
  const last = events.find(({ event }) => event.depth !== undefined || moves.has(event.do));
  const then = last?.event.depth;
  if (!last || !then) return [];
  const [left, before] = [convert(entry.depth, 'cm'), convert(then, 'cm')];
  if (!left || !before || left.minus(before).abs().lte('0.5')) return [];
  return [
    finding('tally.left-differs', `${path}.depth`, {
      left: { quantity: entry.depth },
      event: { quantity: then },
      time: last.event.at.clock,
    }),
  ];
}

const nothing = /^\s*(?:none|nothing|not fixed|no fixation|unfixed|free)\b/i;
const holds: readonly (readonly [name: string, words: RegExp])[] = [
  ['suture', /\bsutur\w+|\bstitch\w*|\bsewn\b/i],
  ['adhesive', /\badhesive\b|\btape\b|\bplaster\b|\bdressing\b|\bsticker\b/i],
  ['balloon', /\bballoon\b/i],
  ['loop', /\bloop\b|\bpigtail\b|\bthread\b/i],
  ['anchor', /\banchors?\b|\bfasteners?\b/i],
  ['cuff', /\bcuff\b/i],
];
const fixedWith = (text: string) => holds.filter(([, words]) => words.test(text)).map(([name]) => name);

function fixation(entry: LeftEntry, path: string, events: readonly At[]): Finding[] {
  const last = events.find(({ event }) => event.fixedBy !== undefined);
  const then = last?.event.fixedBy;
  if (entry.fixedBy === undefined || !last || then === undefined) return [];
  const [none, wasNone] = [nothing.test(entry.fixedBy), nothing.test(then)];
  const [now, before] = [fixedWith(entry.fixedBy), fixedWith(then)];
  const apart = now.length > 0 && before.length > 0 && !now.some(name => before.includes(name));
  return none !== wasNone || (!none && apart) ? [differs(`${path}.fixedBy`, entry.fixedBy, then, last)] : [];
}
