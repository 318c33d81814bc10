import { applyEdits } from '../../../src/drafts/edit.js';
import type { Edit } from '../../../src/drafts/edits.js';
import type { Language } from '../../../src/findings/languages.js';
import { say } from '../../../src/findings/say.js';
import type { LineReading, ProposedEvent } from '../../../src/intake/lines/types.js';
import { openUnfinished } from '../../../src/pipeline/open-unfinished.js';
import { readCaseLines } from '../../../src/pipeline/read-case-lines.js';
import { pathText } from '../../../src/record/path.js';
import type { Tree } from '../../../src/record/read.js';
import type { Site } from '../../../src/site/site.js';
import { saidIn } from './said.js';

/** What a line would write; nothing of it counts until somebody takes it. */
export interface Proposed {
  readonly line: string;
  readonly certainty: LineReading['certainty'];
  /** Why it is uncertain. */
  readonly why: readonly string[];
  /** Words that were not understood. */
  readonly unknown: readonly string[];
  /** What it comes to, as the list of events says it. */
  readonly said: readonly string[];
  /** Takes it over; empty where nothing was understood. */
  readonly edits: readonly Edit[];
}

/** When a line was said: the moment in full for the record, and the time that an event of it gets. */
export interface LineTime {
  /** ISO 8601 with offset. */
  readonly now: string;
  /** Time of receipt as the record writes it. */
  readonly at: string;
}

/** Reads a typed or dictated line against a record that need not be whole. */
export function proposedBy(
  text: string,
  line: string,
  { now, at }: LineTime,
  site: Site,
  language: Language,
): readonly Proposed[] {
  const opened = openUnfinished(text, site, now);
  const { readings } = readCaseLines([line], { opened, site, said: now, at: at.slice(-5) });
  const targets = new Set(Object.keys(opened.record?.targets ?? {}));
  return readings.map(reading => {
    const events = reading.events.map(event => ofTarget({ at, ...event }, targets));
    const edits: Edit[] = [
      ...Object.entries(reading.devices).map(
        ([key, device]): Edit => ({ path: pathText(['devices', key]), value: plain(device) }),
      ),
      ...events.map((event): Edit => ({ path: 'events', insert: 'end', value: plain(event) })),
      ...reading.drugs.map((drug): Edit => ({ path: 'drugs', insert: 'end', value: plain({ at, ...drug }) })),
    ];
    const made = applyEdits(text, edits);
    const after = 'text' in made ? saidIn(openUnfinished(made.text, site, now), language) : [];
    return {
      ...{ line: reading.line, certainty: reading.certainty, edits },
      why: reading.why.map(one => say(one, language)),
      unknown: reading.unknown.map(({ text: words }) => words),
      said: [
        ...after.slice(after.length - events.length),
        ...reading.drugs.map(({ drug, dose, strength, route, for: purpose }) =>
          [drug, dose, strength, route, purpose].filter(part => part !== undefined).join(', '),
        ),
      ],
    };
  });
}

/** What it lies across is a target of the record by its key; else words, which are kept as a note. */
function ofTarget(event: ProposedEvent, targets: ReadonlySet<string>): object {
  const { across, ...rest } = event;
  if (across === undefined || targets.has(across)) return event;
  return { ...rest, note: [rest.note, across].filter(part => part !== undefined).join('; ') };
}

/** As a record has it: text throughout. */
const plain = (fields: object): Tree =>
  Object.fromEntries(
    Object.entries(fields).map(([name, value]: [string, unknown]): [string, Tree] => [
      name,
      Array.isArray(value) ? value.map(String) : String(value),
    ]),
  );
