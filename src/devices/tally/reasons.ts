import { fillPlaces } from '../../findings/places.js';
import type { CaseEvent } from '../../record/schema/record.js';
import type { When } from '../../record/time.js';
import { verbs } from './verbs.js';

/** Why a device is in its end state, in English; other languages fill the same keys, with the same places. */
export const reasons = {
  'why.inserted': 'inserted at {time}',
  'why.carried': 'in place before the case',
  'why.carriedOn': 'in place before the case ({date})',
  'why.intended': '{came}, meant to stay',
  'why.temporary': '{came}, to come out later',
  'why.unintended': '{came}, stays against intention',
  'why.leftFewer': "{came}; 'left' names fewer",
  'why.noRemoval': '{came}; no removal recorded',
  'why.notLeft': "{came}; no removal recorded, and 'left' does not name it",
  'why.lost': 'lost at {time}',
  'why.removed': 'removed',
  'why.insertedAgain': 'inserted at {time} while still inside; what came out proves nothing',
  'why.allPieces': '{how}; cut or broken, all pieces accounted for',
  'why.discarded': 'discarded unused at {time}',
  'why.notOpened': 'not opened',
  'why.failed': 'failed before it went in',
  'why.openedUnused': 'opened, not used',
  'why.outside': 'used outside the patient',
  'why.notDone': 'the case was not done',
  'why.noEvent': 'no event says what became of it',
  'why.counted': 'counted at {time}',
  'why.cameWith': 'came out with {device} at {time}',
  'why.exchanged': 'exchanged for {device} at {time}',
  'why.another': 'another',
  'why.done': '{verb} at {time}',
  'why.doneWith': '{verb} with {device} at {time}',
  'why.doneOver': '{verb} over {device} at {time}',
  'why.doneThrough': '{verb} through {device} at {time}',
  'why.damaged': '{how}, damaged but complete',
  'why.apart.release': 'released from {device}',
  'why.apart.cut': 'cut from {device}',
  'why.apart.fracture': 'broken off {device}',
  'why.apart.other': 'separated from {device}',
  'why.apartLeft': '{how} at {time}, and left',
  'why.notSeen.remove': 'not seen when {device} was removed',
  'why.notSeen.exchange': 'not seen when {device} was exchanged',
  'why.notSeen.retrieve': 'not seen when {device} was retrieved',
  'why.leftWhen.remove': 'left when {device} was removed',
  'why.leftWhen.exchange': 'left when {device} was exchanged',
  'why.leftWhen.retrieve': 'left when {device} was retrieved',
  'why.unrecorded': '{how}; its removal is not recorded',
  'why.unrecordedAt': '{how} at {time}; its removal is not recorded',
  'why.brokenLeft': 'broken off, and left',
  'why.noBreak': 'no event says when it broke off',
  'why.insideWith': 'inside with {device}',
  'why.on': 'on {device}',
  'why.onWhy': 'on {device}: {how}',
} as const;

export type ReasonKey = keyof typeof reasons;

/** What fills a place: text as it is, a date, a verb of the record, or another reason. */
export type ReasonPart = Reason | { readonly when: When } | { readonly verb: CaseEvent['do'] };

/** A reason to be said in any language; text by itself is said as it is. */
export type Reason =
  | string
  | { readonly key: ReasonKey; readonly params: Readonly<Record<string, ReasonPart>> };

type Places<T extends string> = T extends `${string}{${infer Place}}${infer Rest}`
  ? Place | Places<Rest>
  : never;
type Params<K extends ReasonKey> = [Places<(typeof reasons)[K]>] extends [never]
  ? []
  : [params: Readonly<Record<Places<(typeof reasons)[K]>, ReasonPart>>];

/** Makes a reason; its places are checked against the phrase. */
export function reason<K extends ReasonKey>(key: K, ...rest: Params<K>): Reason {
  return { key, params: rest[0] ?? {} };
}

/** The reason in English. */
export function reasonText(part: ReasonPart): string {
  if (typeof part === 'string') return part;
  if ('when' in part) return part.when.text;
  if ('verb' in part) return verbs[part.verb].done;
  return fillPlaces(reasons[part.key], part.params, reasonText);
}
