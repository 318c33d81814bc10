import { say } from '../../words.js';
import { dayEdits, nowIn, useDesk } from '../desk/desk.js';
import { textAt } from '../desk/tree.js';
import type { SheetNode } from '../engine/sheets.js';

/** Times that nearly every case has, in the order in which they come. */
const MOMENTS = [
  ...['before.checklist.signIn', 'before.checklist.timeOut', 'case.started', 'case.ended'],
  'before.checklist.signOut',
] as const;

/** Times of the case: one touch says that it is now; what is said already leads to its field. */
export function Moments() {
  const desk = useDesk();
  const { seen, fields, act, go, open } = desk;
  if (!fields || !open) return null;
  return (
    <section class="moments" aria-label={say('case.moments')}>
      <div class="offers">
        {MOMENTS.map(path => {
          const time = textAt(seen.tree, path);
          return (
            <button
              key={path}
              type="button"
              data-moment={path}
              class={time === undefined ? undefined : 'said'}
              onClick={() =>
                time === undefined
                  ? void act([...dayEdits(desk), { path, value: nowIn(desk) }])
                  : go({ view: 'record', path })
              }
            >
              {labelOf(fields.sheets, path)}
              <small>{time?.slice(-5) ?? say('case.now')}</small>
            </button>
          );
        })}
      </div>
    </section>
  );
}

/** What the sheets call a field. */
function labelOf(sheets: readonly SheetNode[], path: string): string {
  const [first = '', ...rest] = path.split('.');
  const node = rest.reduce<SheetNode | undefined>(
    (here, step) => here?.children.find(({ name }) => name === step),
    sheets.find(({ name, children }) => name === first && children.length > 0),
  );
  return node?.label ?? path;
}
