import type { Language } from '../../../src/findings/languages.js';
import { message } from '../../../src/findings/message.js';
import { say } from '../../../src/findings/say.js';
import { proposalsIn, type Remarked } from '../../../src/intake/write/remarks.js';
import { pathSegments } from '../../../src/record/path.js';
import type { Tree } from '../../../src/record/read.js';
import { isGroup, valueAt } from '../../../src/record/tree.js';

export type { Remarked };

/**
 * What a kit or another system proposes and the record does not say yet. Nothing of it counts until it is taken over.
 * @param tree of the text
 */
export function openProposals(text: string, tree: Tree | undefined, language: Language): readonly Remarked[] {
  return proposalsIn(text)
    .filter(({ path, value }) => {
      const steps = pathSegments(path);
      const there = valueAt(tree, steps);
      if (Array.isArray(there)) return !there.some(entry => says(entry, value));
      // `none` was said after the proposal was made, or one text in place of the group: they stand.
      const above = steps.slice(0, -1).map((_, n) => valueAt(tree, steps.slice(0, n + 1)));
      return there === undefined && above.every(one => one === undefined || isGroup(one));
    })
    .map(one => ({ ...one, from: fromIn(one.from, language) }));
}

/** Who proposes it, in the language of the page: the text of a record has it in English. */
function fromIn(from: string, language: Language): string {
  const kit = `${say(message('source.kit'), 'en-GB')} `;
  return from.startsWith(kit) ? `${say(message('source.kit'), language)} ${from.slice(kit.length)}` : from;
}

/** True where an entry says all that is proposed, whatever else it says. */
function says(entry: Tree, proposed: Tree): boolean {
  if (!isGroup(proposed)) return JSON.stringify(entry) === JSON.stringify(proposed);
  return (
    isGroup(entry) &&
    Object.entries(proposed).every(([name, value]) => {
      const own = entry[name];
      return own !== undefined && says(own, value);
    })
  );
}
