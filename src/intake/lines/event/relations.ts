import { message } from '../../../findings/message.js';
import { isDescription, isManner } from '../table/descriptions.js';
import type { OnTable } from '../table/table.js';
import { isPart, isPlace, wordTokens } from '../table/which.js';
import type { Noun } from '../text/clauses.js';
import type { Act } from '../words/entry.js';
import { isKnownPlace, isNarrow } from '../words/places.js';
import { type Draft, named, type Reading } from './reading.js';
import { agentOf, placeText, targetOf } from './said.js';

/** What the device ran over and through, where it went, what helped. */
export function relations(reading: Reading, event: Draft, act: Act, used: ReadonlySet<Noun>): void {
  const { notes, clause, amounts } = reading;
  const aside: string[] = [];
  for (const noun of clause.nouns) {
    if (used.has(noun) || amounts.left(noun).length === 0) continue;
    const place = placeText(noun, notes.line);
    const rail = noun.preposition === 'over' && !fillsLumens.has(act);
    const others = {
      where: 'inside' as const,
      can: (one: OnTable) => one.key !== event.device && (!rail || one.family === 'guidewire'),
    };
    switch (noun.preposition) {
      case 'over':
      case 'through': {
        const one = named(reading, noun, others);
        if (!one || (one.fit.length === 0 && !one.device)) {
          if (noun.preposition === 'through' && isNarrow(place)) event.across = targetOf(notes, place);
          else {
            notes.unclear(noun.tokens);
            notes.doubt(message('line.noFit', { said: place }));
          }
          break;
        }
        const device = notes.take(noun.preposition, one, false);
        // `angiogram over the microcatheter` is one through it.
        if (
          device &&
          event.device === undefined &&
          fillsLumens.has(act) &&
          hollows.has(device.family ?? '')
        ) {
          event.device = device.key;
          if (noun.preposition === 'over') notes.doubt(message('line.askBack', { word: place }));
        } else if (device && device.key === event.device) notes.unclear(noun.tokens);
        else if (device) event[noun.preposition] = device.key;
        break;
      }
      case 'across':
        event.across = targetOf(notes, place);
        break;
      case 'into':
      case 'in':
      case 'to':
        if (noun.tokens.some(({ entry }) => entry?.role === 'setting')) event.to = place;
        else if (/^(?:down|up)$/i.test(noun.lead?.text ?? '') && lumen(reading, noun, event)) break;
        else if (act === 'tunnel') aside.push(withLead(noun, notes.line));
        else if (act === 'inflate') aside.push(withLead(noun, notes.line));
        else if (act === 'setting' || act === 'measure' || act === 'inject' || act === 'flush') {
          if (noun.preposition === 'in' && isKnownPlace(place)) event.into = place;
          else aside.push(withLead(noun, notes.line));
        } else if (noun.preposition === 'to' && !moves.has(act)) notes.unclear(noun.tokens);
        else if (wordTokens(noun).length === 0) notes.unclear(noun.tokens);
        else event.into = place;
        break;
      case 'on':
        if (noun.tokens.some(({ entry }) => entry?.role === 'setting')) event.to = place;
        else if (act === 'compress') aside.push(`on ${place}`);
        else notes.unclear(noun.tokens);
        break;
      case 'with': {
        if (noun.tokens.some(({ entry, text }) => entry?.role === 'fixing' || /^sutures?$/i.test(text))) {
          event.fixedBy = place;
          break;
        }
        if (noun.tokens.every(({ entry }) => entry?.role === 'fluid')) break;
        const comes = act === 'insert' || act === 'advance' || act === 'exchange';
        const one = named(reading, noun, { where: comes ? 'anywhere' : 'inside' });
        const device = one && one.fit.length > 0 ? notes.take('with', one, false) : undefined;
        if (device && comes && device.inside === 0) Object.assign(device, { inside: 1, used: true });
        if (device && device.key !== event.device) event.with = [device.key];
        else notes.unclear(noun.tokens);
        break;
      }
      case 'near':
      case 'from':
        aside.push(withLead(noun, notes.line));
        notes.unclear(noun.tokens.filter(({ piece }) => piece?.is === 'number'));
        break;
      case undefined:
        if (act === 'inflate' && (named(reading, noun, { where: 'anywhere' })?.fit.length ?? 0) > 0) {
          aside.push(place);
          break;
        }
        if (isPart(noun) || isDescription(clause, noun)) break;
        if (isManner(noun, clause.tokens)) {
          aside.push(place);
          break;
        }
        if (act === 'puncture' && event.into === undefined) event.into = place;
        else if (act === 'cross' && event.across === undefined && isNarrow(place))
          event.across = targetOf(notes, place);
        else if (act === 'measure' || act === 'image') {
          aside.push(place);
          notes.unclear(noun.tokens.filter(({ piece }) => piece?.is === 'number'));
        } else if (isNarrow(place) && event.across === undefined) event.across = targetOf(notes, place);
        else if (isPlace(noun)) aside.push(place);
        else if (
          agentOf(clause) !== undefined &&
          wordTokens(noun).every(({ text }) => agentOf(clause)?.includes(text))
        )
          break;
        else notes.unclear(amounts.left(noun));
        break;
      default:
        notes.unclear(noun.tokens);
    }
  }
  if (aside.length > 0) event.note = aside.join('; ');
}

/** `down the microcatheter`: through it. */
function lumen(reading: Reading, noun: Noun, event: Draft): boolean {
  const one = named(reading, noun, { where: 'inside', can: ({ key }) => key !== event.device });
  const hollow = one?.fit.every(({ family }) => family !== undefined && hollows.has(family));
  if (!one || one.fit.length === 0 || !hollow || isPlace(noun)) return false;
  const device = reading.notes.take('through', one, false);
  if (device) event.through = device.key;
  return device !== undefined;
}

const fillsLumens: ReadonlySet<Act> = new Set(['image', 'inject', 'flush', 'aspirate']);

const hollows: ReadonlySet<string> = new Set(['needle', 'catheter', 'sheath', 'drain', 'tube', 'dilator']);

const moves: ReadonlySet<Act> = new Set([
  'insert',
  'advance',
  'withdraw',
  'pull',
  'move',
  'remove',
  'deploy',
  'exchange',
  'puncture',
  'reposition',
  'release',
  'cross',
]);

/** The words of a group with its preposition: `above the bifurcation`. */
const withLead = ({ lead, tokens }: Noun, line: string) =>
  line.slice(lead?.start ?? tokens[0]?.start, tokens.at(-1)?.end);
