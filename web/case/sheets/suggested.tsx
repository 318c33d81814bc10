import { say } from '../../words.js';
import type { Term } from '../engine/terms.js';

/** Names that what was typed may mean, to touch. */
export function Suggested({
  terms,
  pick,
  gone = false,
}: {
  readonly terms: readonly Term[];
  readonly pick: (name: string) => void;
  /** They keep their place and cannot be seen. */
  readonly gone?: boolean;
}) {
  if (terms.length === 0) return null;
  return (
    <fieldset class={gone ? 'suggested gone' : 'suggested'} disabled={gone} aria-hidden={gone}>
      <legend class="unseen">{say('case.suggested')}</legend>
      {terms.map(term => (
        <button
          key={term.name}
          type="button"
          // The field keeps the focus: left, it would write what was typed so far.
          onPointerDown={event => event.preventDefault()}
          onMouseDown={event => event.preventDefault()}
          onClick={() => pick(term.name)}
        >
          {term.said}
        </button>
      ))}
    </fieldset>
  );
}
