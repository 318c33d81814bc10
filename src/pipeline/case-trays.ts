import { playEvents } from '../devices/tally/play.js';
import type { Finding } from '../findings/finding.js';
import type { Language } from '../findings/languages.js';
import { say } from '../findings/say.js';
import type { Site } from '../site/site.js';
import { type Placed, traysOf } from '../trays/trays.js';
import { openUnfinishedBytes } from './open-unfinished.js';

/** One thing of a case where it is, as it is shown. */
export type PlacedRow = Omit<Placed, 'name'> & { readonly name: string };

/** The things of a case on the table, in the patient and out, each with what can be done with it. */
export interface CaseTrays {
  readonly placed: readonly PlacedRow[];
  /** What the events cannot have been, and what of them could not be read and was left out. */
  readonly findings: readonly Finding[];
}

/**
 * Where each thing of a record is that need not be whole yet.
 * @param now ISO 8601 with offset
 * @returns findings alone where devices or events of the record cannot be read
 */
export function caseTrays(
  bytes: Uint8Array,
  site: Site,
  now: string,
  language?: Language,
): CaseTrays | { readonly findings: readonly Finding[] } {
  const opened = openUnfinishedBytes(bytes, site, now);
  if (!('record' in opened) || !opened.assessment) return { findings: opened.findings };
  const play = playEvents(opened.record, opened.assessment.devices);
  return {
    placed: traysOf(play).map(({ name, ...rest }) => ({ ...rest, name: say(name, language) })),
    findings: [...opened.unread, ...play.findings],
  };
}
