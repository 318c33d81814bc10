import { message } from '../../../findings/message.js';
import { drugsIn } from '../../../trade/drugs/table.js';
import { isDescription } from '../table/descriptions.js';
import type { OnTable } from '../table/table.js';
import type { Noun } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';
import type { ProposedEvent } from '../types.js';
import type { Act } from '../words/entry.js';
import { isNarrow } from '../words/places.js';
import { isBalloon, isPlaced, isPoured } from './plans.js';
import { named, type Reading, rolesOf } from './reading.js';
import { agentOf, countOf, placeText } from './said.js';

/** What was done: the verb with the words that go with it, or what follows from what is said without one. */
export function actOf(reading: Reading): Act | undefined {
  const { clause, notes, amounts, plain } = reading;
  const all = [...new Set(clause.acts.map(({ act }) => act))];
  const acts = all.length > 1 ? all.filter(act => act !== 'move' && act !== 'image') : all;
  if (acts.length > 1) {
    const kept = acts.filter(act => act !== 'pull' && act !== 'happened');
    if (kept.length > 1 && !(acts.includes('compress') || acts.includes('fix')))
      notes.doubt(message('line.twoActs', { verbs: acts.join(', ') }));
  }
  const act = acts.at(-1);
  const { particles, nouns } = clause;
  const to = nouns.some(
    ({ preposition }) => preposition === 'into' || preposition === 'to' || preposition === 'in',
  );
  const [out, back, down, up] = (['out', 'back', 'down', 'up'] as const).map(one => particles.has(one));
  const fluid = rolesOf(clause, 'fluid').length > 0;
  switch (act) {
    case 'move': {
      if (out) return 'remove';
      if (particles.has('in')) return 'insert';
      if (down) return 'deflate';
      if (back) {
        notes.doubt(message('line.askBack', { word: 'back' }));
        return 'withdraw';
      }
      if (rolesOf(clause, 'specimen').length > 0) return 'sample';
      if (nouns.some(({ preposition }) => preposition === 'across')) return 'cross';
      return to || nouns.some(({ preposition }) => preposition === 'over' || preposition === 'through')
        ? 'advance'
        : undefined;
    }
    case 'pull':
      return back || (to && !out) ? 'withdraw' : 'remove';
    case 'withdraw':
      if (!out && !to)
        notes.doubt(
          message('line.askBack', { word: clause.tokens.find(one => one.entry?.role === 'act')?.text ?? '' }),
        );
      return out ? 'remove' : 'withdraw';
    case 'insert':
      if (
        rolesOf(clause, 'fixing').length > 0 &&
        plain.every(noun => !named(reading, noun, { where: 'anywhere' }))
      )
        return 'fix';
      return out ? 'remove' : 'insert';
    case 'inflate':
      if (agentOf(clause) === 'air' || agentOf(clause) === 'carbon dioxide') {
        if (!nouns.some(({ preposition }) => preposition === 'through'))
          notes.doubt(message('line.askBack', { word: rolesOf(clause, 'act')[0]?.text ?? '' }));
        return 'inject';
      }
      // A tract dilated to a French size: something of that size went in.
      if (
        amounts.pressure === undefined &&
        nouns.some(({ preposition, tokens }) => preposition === 'to' && tokens.some(isCalibre))
      ) {
        notes.doubt(message('line.askBack', { word: rolesOf(clause, 'act')[0]?.text ?? '' }));
        return 'insert';
      }
      return back || down ? 'deflate' : 'inflate';
    case 'image':
      return fluid && amounts.volume !== undefined ? 'inject' : 'image';
    case 'puncture':
      return 'puncture';
    case undefined:
      break;
    default:
      return act;
  }
  // `45 mL of thick pus out`
  const bare = plain.every(
    noun => isDescription(clause, noun) || !named(reading, noun, { where: 'anywhere' }),
  );
  if (out && fluid && amounts.volume !== undefined && bare) return 'aspirate';
  if (out) return 'remove';
  const failed = clause.tokens.some(({ entry }) => entry?.role === 'doubt' && entry.doubt === 'failed');
  const narrow = nouns.some(noun => isNarrow(placeText(noun, notes.line)) && noun.preposition !== 'from');
  if (failed && (narrow || nouns.some(({ preposition }) => preposition === 'across'))) return 'cross';
  const passes = nouns.some(
    noun =>
      noun.preposition === 'across' ||
      (noun.preposition === 'through' && isNarrow(placeText(noun, notes.line))),
  );
  if (
    passes &&
    plain.length === 0 &&
    nouns.some(
      noun =>
        noun.preposition === 'with' &&
        named(reading, noun, { where: 'anywhere' })?.fit.some(one => one.family === 'guidewire'),
    )
  )
    return 'cross';
  if (rolesOf(clause, 'specimen').length > 0) return 'sample';
  if (rolesOf(clause, 'fixing').length > 0 && plain.length === 0) return 'fix';
  const balloon =
    plain.length === 0 || plain.some(noun => named(reading, noun, { where: 'inside' })?.fit.some(isBalloon));
  if (down && balloon && !to) return 'deflate';
  if (up && balloon && !to) return 'inflate';
  const poured = plain.some(noun => named(reading, noun, { where: 'anywhere' })?.fit.some(isPoured));
  if (particles.has('in') && amounts.volume !== undefined && (poured || agentOf(clause) !== undefined))
    return 'inject';
  if (particles.has('in')) return 'insert';
  if (back) {
    notes.doubt(message('line.askBack', { word: 'back' }));
    return 'withdraw';
  }
  if (amounts.pressure !== undefined)
    return /^(?:mmHg|cmH2O|kPa)$/.test(amounts.pressureUnit ?? '')
      ? 'measure'
      : balloon
        ? 'inflate'
        : undefined;
  if (rolesOf(clause, 'reading').length > 0) return amounts.duration === undefined ? 'measure' : 'compress';
  if (fluidActs(reading)) return fluidActs(reading);
  if (rolesOf(clause, 'setting').length > 0 || rolesOf(clause, 'atSkin').length > 0) return 'setting';
  const device = plain
    .map(noun => named(reading, noun, { where: 'anywhere' }))
    .find(one => one !== undefined);
  const needle = (noun: Noun) =>
    noun.preposition === 'with' &&
    named(reading, noun, { where: 'outside' })?.fit.every(({ family }) => family === 'needle');
  // `into the femoral vein with the 18 gauge`
  if (plain.length === 0 && nouns.some(needle) && nouns.some(({ preposition }) => preposition === 'into'))
    return 'puncture';
  const runs = nouns.some(({ preposition }) => preposition !== undefined && ways.has(preposition));
  if (!device && plain.length === 0 && notes.pending !== undefined && (runs || up || down)) return 'advance';
  if (
    !device &&
    notes.events.length === 0 &&
    amounts.volume === undefined &&
    rolesOf(clause, 'guidance').length > 0
  )
    return 'image';
  if (!device) return exchanges(reading) ? 'exchange' : undefined;
  if (exchanges(reading)) return 'exchange';
  if (amounts.volume !== undefined && device.fit.some(isPoured)) return 'inject';
  const counted = device.fit.length > 0 && device.fit.every(isPlaced);
  if (counted && countOf(clause) !== undefined) return 'deploy';
  const goes = nouns.some(({ preposition }) => preposition !== undefined && ways.has(preposition));
  if (!goes) return undefined;
  return device.fit.some(isPoured) ? 'inject' : 'advance';
}

const ways: ReadonlySet<string> = new Set(['over', 'through', 'across', 'into', 'in', 'to']);

const isCalibre = ({ piece }: Token) => piece?.is === 'amount' && piece.dimension === 'calibre';

/** `needle for a 5 French sheath`: one that is in for one that is not. */
function exchanges(reading: Reading): boolean {
  const { clause, plain } = reading;
  const fresh = clause.nouns.find(({ preposition }) => preposition === 'for');
  const old = plain[0] && named(reading, plain[0], { where: 'inside' });
  const other = fresh && named(reading, fresh, { where: 'outside' });
  return old?.device !== undefined && !old.misplaced && other?.device !== undefined && !other.misplaced;
}

/** A volume of a fluid without a verb: contrast is injected, pus was aspirated. */
function fluidActs({ clause, amounts, notes }: Reading): Act | undefined {
  if (amounts.volume === undefined) return undefined;
  const agent = agentOf(clause);
  if (
    agent === 'contrast' ||
    (agent !== undefined && drugsIn(agent).some(({ families }) => families.some(one => /contrast/.test(one))))
  )
    return 'inject';
  const out = clause.tokens.some(({ entry }) => entry?.role === 'fluid' && entry.out);
  if (!out && agent === undefined) return undefined;
  notes.doubt(message('line.noAct'));
  if (agent === 'air' || agent === 'carbon dioxide') return 'inject';
  return out ? 'aspirate' : 'flush';
}

/** Going in or going further: by where the device is. */
export function enters(
  { clause }: Reading,
  act: 'advance' | 'insert',
  device: OnTable | undefined,
): ProposedEvent['do'] {
  if (!device) return clause.acts.some(one => one.act === 'advance') ? 'advance' : 'insert';
  if (act === 'insert') return 'insert';
  return device.inside > 0 ? 'advance' : 'insert';
}
