import { message } from '../../../findings/message.js';
import { wordsOf } from '../../../trade/words.js';
import type { Named, Where } from '../table/choosing.js';
import { isDescription, isManner } from '../table/descriptions.js';
import type { OnTable } from '../table/table.js';
import { isPart, isPlace, wordTokens } from '../table/which.js';
import type { Noun } from '../text/clauses.js';
import type { Act } from '../words/entry.js';
import { isBalloon, type Plan, plans } from './plans.js';
import { named, type Reading } from './reading.js';
import { agentOf, placeText } from './said.js';

/** The device that something is done to or with. */
export function subjectOf(
  reading: Reading,
  act: Act,
  plan: Plan,
): {
  device: OnTable | undefined;
  part?: string;
  used: ReadonlySet<Noun>;
  /** What the same is done to: `both needles out`. */
  others?: readonly OnTable[];
} {
  const { notes, clause, plain } = reading;
  const used = new Set<Noun>();
  const found: Named[] = [];
  const brings = [
    'insert',
    'advance',
    'deploy',
    'puncture',
    'open',
    'inject',
    'detach',
    'sample',
    'release',
  ].includes(act);
  const sized =
    act === 'insert'
      ? clause.nouns.filter(one => one.preposition === 'to' && wordTokens(one).length === 0)
      : [];
  const candidates = [
    ...plain,
    ...sized,
    ...clause.nouns.filter(
      ({ preposition }) =>
        (preposition === 'with' && plan.instrument === true) ||
        ((preposition === 'through' || preposition === 'from') &&
          (act === 'inject' ||
            act === 'aspirate' ||
            act === 'flush' ||
            act === 'measure' ||
            act === 'image')),
    ),
  ];
  const tool =
    act === 'inflate' && clause.nouns.some(noun => noun.preposition === 'with' && areBalloons(reading, noun));
  for (const noun of candidates) {
    // `stent post-dilated with the balloon`: the balloon is inflated.
    if (tool && !areBalloons(reading, noun)) continue;
    const one = named(reading, noun, { ...plan, where: whereFor(reading, act, plan, noun) });
    if (!one || (one.fit.length === 0 && !brings)) continue;
    // Something is injected through what is named with `through`, unless it is itself on the table.
    if (found.length > 0) continue;
    if (
      !one.device &&
      one.fit.length === 0 &&
      one.proposal &&
      ((noun.preposition !== undefined && act !== 'puncture') || agentOf(clause) !== undefined)
    )
      continue;
    found.push(one);
    used.add(noun);
  }
  const [one] = found;
  // Without a verb it may as well be the one that is in already.
  const inAlready =
    one && act === 'advance' && clause.acts.length === 0 && one.device && one.device.inside === 0
      ? rivals(reading, used)
      : [];
  if (one && inAlready.length > 0 && one.by === 'state')
    notes.doubt(
      message('line.twoFit', { said: one.said, devices: [one.device?.key ?? '', ...inAlready].join(', ') }),
    );
  const part = !one || one.misplaced ? partIn(reading, act) : undefined;
  if (part) return part;
  const several = one && bothOf([...used][0], one);
  if (several) {
    const [first, ...others] = several.map(device =>
      notes.take('device', { ...one, device, fit: [device] }, false),
    );
    return { device: first, used, others: others.filter(other => other !== undefined) };
  }
  if (one) return { device: notes.take('device', one, brings), used };
  const lost = plain.filter(
    noun =>
      wordTokens(noun).length > 0 &&
      !isPlace(noun) &&
      !isPart(noun) &&
      !isDescription(clause, noun) &&
      !isManner(noun, clause.tokens),
  );
  if (lost.length > 0 && !plan.alone) {
    for (const noun of lost) notes.unclear(wordTokens(noun));
    notes.doubt(message('line.noFit', { said: lost.map(noun => placeText(noun, notes.line)).join(', ') }));
    return { device: undefined, used: new Set(lost) };
  }
  return { device: implied(reading, plan), used };
}

const areBalloons = (reading: Reading, noun: Noun): boolean =>
  named(reading, noun, { where: 'anywhere' })?.fit.some(isBalloon) ?? false;

/** `both needles` are the two that there are. */
function bothOf(noun: Noun | undefined, { fit, misplaced }: Named): readonly OnTable[] | undefined {
  const both = noun?.tokens.some(
    ({ text, piece }) => /^(?:both|two)$/i.test(text) || (piece?.is === 'number' && piece.value === '2'),
  );
  return both && fit.length === 2 && !misplaced ? fit : undefined;
}

/** `dilator out`: a part of what is in, where no device of that name is. */
function partIn({ notes, plain }: Reading, act: Act) {
  if (!['remove', 'pull', 'move', 'cut', 'discard'].includes(act)) return undefined;
  for (const noun of plain) {
    const words = wordsOf(
      wordTokens(noun)
        .map(({ text }) => text)
        .join(' '),
    );
    const found = notes.bench.table.flatMap(device =>
      device.inside === 0
        ? []
        : Object.entries(device.parts)
            .filter(
              ([key, kind]) =>
                words.length > 0 && words.every(word => [...wordsOf(key), ...wordsOf(kind)].includes(word)),
            )
            .map(([part]) => ({ device, part, used: new Set([noun]) })),
    );
    if (found.length === 1) return found[0];
  }
  return undefined;
}

/** Those that the same words mean and that are inside. */
const rivals = (reading: Reading, used: ReadonlySet<Noun>): string[] =>
  [...used]
    .flatMap(noun => named(reading, noun, { where: 'anywhere' })?.fit ?? [])
    .flatMap(({ inside, key }) => (inside > 0 ? [key] : []));

/** Where the device must be: what goes over or through something comes in, what only goes further is in. */
function whereFor(reading: Reading, act: Act, { where }: Plan, noun: Noun): Where {
  const { clause } = reading;
  const any = named(reading, noun, { where: 'anywhere' })?.fit ?? [];
  if (act === 'inject' && any.some(({ family }) => family === 'embolic')) return 'anywhere';
  if (act === 'cross' && any.some(one => one.inside > 0)) return 'inside';
  if (act !== 'advance') return where;
  const runs = clause.nouns.some(({ preposition }) => preposition === 'over' || preposition === 'through');
  const says = clause.acts.some(one => one.act === 'advance');
  const inside = any.some(one => one.inside > 0);
  const outside = any.some(one => one.inside < one.count);
  if (inside && outside) return runs && !says ? 'outside' : 'inside';
  return outside && !inside ? 'outside' : 'anywhere';
}

/** The device of a clause that names none. */
function implied({ notes, clause }: Reading, plan: Plan): OnTable | undefined {
  const { bench } = notes;
  const { can, where } = plan;
  const ready = bench.of(notes.pending);
  if (ready && plan.do !== 'remove') {
    notes.meant.push({ as: 'device', device: ready.key, by: 'spoken of last' });
    return ready;
  }
  const verb =
    clause.tokens.find(({ entry }) => entry?.role === 'act' || entry?.role === 'particle')?.text ?? plan.do;
  if (!can) {
    if (!plan.alone) notes.doubt(message('line.noDevice', { verb }));
    return undefined;
  }
  const there = bench.table.filter(one =>
    where === 'outside' ? one.inside < one.count : where === 'anywhere' || one.inside > 0,
  );
  const fit = there.filter(can);
  const inside = fit.filter(one => one.inside > 0);
  const narrowed = where === 'anywhere' && inside.length > 0 ? inside : fit;
  const before = narrowed.find(({ key }) => key === bench.subject);
  const any = can === plans.remove.can;
  const device =
    before ??
    (narrowed.length === 1
      ? narrowed[0]
      : narrowed.find(({ key }) => key === bench.spokenOf.find(one => narrowed.some(it => it.key === one))));
  if (!device) {
    if (narrowed.length > 1)
      notes.doubt(message('line.twoFit', { said: verb, devices: narrowed.map(({ key }) => key).join(', ') }));
    else if (!plan.alone) notes.doubt(message('line.noDevice', { verb }));
    return undefined;
  }
  const others = narrowed.filter(one => one !== device).map(({ key }) => key);
  const sameLine = notes.subjects.at(-1) === device.key;
  const sure = others.length === 0 || (before !== undefined && (sameLine || (!any && plan.do !== 'ablate')));
  const shaky = !sameLine && bench.table.some(one => one !== device && can(one) && bench.shaky.has(one.key));
  if (!sure || shaky) notes.doubt(message('line.recent', { device: device.key }));
  notes.meant.push({
    as: 'device',
    device: device.key,
    by: others.length === 0 ? 'the only one' : 'spoken of last',
    ...(others.length > 0 && { others }),
  });
  return device;
}
