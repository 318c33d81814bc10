import { say } from '../../words.js';
import type { Who } from '../person/who.js';
import { Correct } from './correct.js';
import { ItemView } from './item-view.js';

/** A case that has left: what became of it at each destination, and the way to a next version of its report. */
export function AfterView({
  id,
  who,
  items,
}: {
  readonly id: string;
  readonly who: Who;
  readonly items: readonly string[];
}) {
  return (
    <>
      <section aria-labelledby="items">
        <h3 id="items">{say('case.after.items')}</h3>
        <ul class="things">
          {items.map(item => (
            <ItemView key={item} id={item} who={who} />
          ))}
        </ul>
      </section>
      <Correct id={id} who={who} />
    </>
  );
}
