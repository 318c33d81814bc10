import type { Session } from '../destination/session.js';
import type { Submission } from '../request/submission.js';
import { compareResource, type EntryDifference } from './compare.js';
import { placesHeld } from './read-back.js';
import { type EntryPresence, lookAtOnce } from './reconcile.js';

/** What sending an entry would change at the destination, by what it holds now. */
export interface PreviewEntry {
  readonly fullUrl: string;
  readonly type: string;
  /**
   * new: it would be created. same: nothing would change. differs: it would be changed by an update, and left as
   * it is by a conditional create. several: the destination could not choose. not-told: it cannot be asked.
   */
  readonly now: 'new' | 'same' | 'differs' | 'several' | 'not-told';
  /** `Type/id` of what is held. */
  readonly held: readonly string[];
  readonly differences: readonly EntryDifference[];
}

/** What a submission would change at a destination, found out with reads only. */
export async function previewSend(
  submission: Submission,
  session: Session,
): Promise<readonly PreviewEntry[]> {
  const { entries } = await lookAtOnce(submission, session);
  const places = placesHeld(entries);
  const asked = new Map(entries.map(presence => [presence.entry.index, presence]));
  return submission.entries.map(({ index, fullUrl, type, resource }) => {
    const presence = asked.get(index);
    const held = presence?.held ?? [];
    const there = held.length === 1 ? held[0]?.resource : undefined;
    const differences = resource && there ? compareResource(resource, there, places) : [];
    return {
      fullUrl,
      type,
      now: nowOf(presence),
      held: held.map(h => `${type}/${h.id}`),
      differences: differences.map(d => ({ ...d, fullUrl })),
    };
  });
}

function nowOf(presence: EntryPresence | undefined): PreviewEntry['now'] {
  switch (presence?.state) {
    case 'absent':
      return 'new';
    case 'equal':
      return 'same';
    case 'differs':
    case 'several':
      return presence.state;
    default:
      return 'not-told';
  }
}
