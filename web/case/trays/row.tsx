import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import { say } from '../../words.js';
import { dayEdits, nowIn, useDesk } from '../desk/desk.js';
import { at } from '../desk/tree.js';
import { nameIn, waysSaid } from './names.js';
import { Offers } from './offers-view.js';
import { eventEdit, firstChosen, parted, tapped } from './ways.js';

interface Props {
  readonly id: string;
  readonly placed: PlacedRow;
  readonly open: boolean;
  readonly toggle: () => void;
  readonly done: () => void;
}

/** One device where it is. The button at its end does at once what is most usual, and says all that it writes. */
export function Row({ id, placed, open, toggle, done }: Props) {
  const desk = useDesk();
  const { seen, act } = desk;
  const name = nameIn(seen.placed, seen.tree);
  const { usual } = parted(placed.offers);
  const [first] = usual;
  const chosen = first && firstChosen(first);
  const write = () => {
    if (!first || !chosen) return;
    void act([...dayEdits(desk), eventEdit(tapped(first, nowIn(desk), chosen))]);
  };
  return (
    <li class="row" data-moves data-device={placed.device}>
      <div class="row-head">
        <button
          type="button"
          class="row-open"
          aria-expanded={open}
          aria-controls={`${id}-more`}
          onClick={toggle}
        >
          <span class="name">
            {placed.name}
            {placed.count > 1 && <span class="count"> × {placed.count}</span>}
          </span>
          <Marks placed={placed} />
          <Runs placed={placed} name={name} />
        </button>
        {first && chosen && desk.open && !open && (
          <button type="button" class="act" data-do={first.do} onClick={write}>
            {say(`case.do.${first.do}`)}
            {(first.most ?? 1) > 1 && ' × 1'}
            {waysSaid(chosen, name) !== '' && <small>{waysSaid(chosen, name)}</small>}
          </button>
        )}
      </div>
      {open && (
        <div id={`${id}-more`} class="row-more">
          {desk.open && <Offers placed={placed} done={done} />}
          <More placed={placed} />
        </div>
      )}
    </li>
  );
}

function Marks({ placed }: { readonly placed: PlacedRow }) {
  const marks = (['locked', 'inflated', 'broken'] as const).filter(mark => placed[mark]);
  if (marks.length === 0 || placed.tray === 'on the table') return null;
  return (
    <span class="marks">
      {marks.map(mark => (
        <span key={mark} class={`mark mark-${mark}`}>
          {say(`case.mark.${mark}`)}
        </span>
      ))}
    </span>
  );
}

/** What it runs on, and what runs on it. */
function Runs({ placed, name }: { readonly placed: PlacedRow; readonly name: (key: string) => string }) {
  const ways = waysSaid(placed, name);
  const carries = placed.carries.map(name).join(', ');
  if (ways === '' && carries === '') return null;
  return (
    <span class="runs">
      {ways !== '' && <span>{ways}</span>}
      {carries !== '' && <span>{say('case.carries', { what: carries })}</span>}
    </span>
  );
}

/** What else can be said of a device: that it was never opened, and everything that the record has of it. */
function More({ placed }: { readonly placed: PlacedRow }) {
  const { act, go, seen, open } = useDesk();
  const path = `devices.${placed.device}`;
  const use = at(seen.tree, `${path}.use`);
  const spare = placed.tray === 'on the table' && placed.part === undefined && !placed.outside;
  return (
    <div class="offers">
      {open &&
        spare &&
        (['unopened', 'opened unused'] as const).map(one => (
          <button
            key={one}
            type="button"
            aria-pressed={use === one}
            onClick={() =>
              void act([
                use === one ? { path: `${path}.use`, remove: true } : { path: `${path}.use`, value: one },
              ])
            }
          >
            {say(`case.use.${one}`)}
          </button>
        ))}
      {open && spare && use === undefined && (
        <button type="button" data-carried onClick={() => void act([{ path: `${path}.carried`, value: {} }])}>
          {say('case.carried')}
        </button>
      )}
      <button type="button" onClick={() => go({ view: 'record', path })}>
        {say('case.details')}
      </button>
    </div>
  );
}
