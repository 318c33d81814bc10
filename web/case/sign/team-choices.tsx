import { say } from '../../words.js';
import { isGroup, listAt, nameOf, type Tree } from '../desk/tree.js';

export interface Person {
  readonly key: string;
  readonly name: string;
}

/** People of the record who can be named: those with a key. */
export const teamIn = (tree: Tree | undefined): readonly Person[] =>
  listAt(tree, 'team').flatMap(one =>
    isGroup(one) && typeof one['key'] === 'string' ? [{ key: one['key'], name: nameOf(one['name']) }] : [],
  );

/** Asks which of them signs. */
export function TeamChoices({
  team,
  chosen,
  choose,
}: {
  readonly team: readonly Person[];
  readonly chosen?: string | undefined;
  readonly choose: (key: string) => void;
}) {
  return (
    <fieldset class="author">
      <legend>{say('case.sign.author')}</legend>
      <div class="choices">
        {team.map(({ key, name }) => (
          <button
            key={key}
            type="button"
            data-author={key}
            aria-pressed={key === chosen}
            onClick={() => choose(key)}
          >
            {name || key}
          </button>
        ))}
      </div>
      {team.length === 0 && <p class="hint">{say('case.none-to-choose')}</p>}
    </fieldset>
  );
}
