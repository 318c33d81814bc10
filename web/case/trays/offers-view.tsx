import { useEffect, useRef, useState } from 'preact/hooks';
import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import type { Offer } from '../../../src/trays/offers.js';
import { type Chosen, waysIn } from '../../../src/trays/taps.js';
import { say } from '../../words.js';
import { dayEdits, nowIn, useDesk } from '../desk/desk.js';
import type { Tree } from '../desk/tree.js';
import { FieldInput } from '../sheets/field-input.js';
import { nameIn, waysSaid } from './names.js';
import { eventEdit, firstChosen, isPlain, parted, relations, tapped } from './ways.js';

interface Props {
  readonly placed: PlacedRow;
  readonly done: () => void;
}

/** What can be done with a device here: first the usual, the rest under `more`. */
export function Offers({ placed, done }: Props) {
  const desk = useDesk();
  const [picked, setPicked] = useState<{ readonly offer: Offer; readonly time: string }>();
  const { usual, rest } = parted(placed.offers);
  // The time is that of the touch, not of the last word that is typed about it.
  const pick = async (offer: Offer) => {
    const time = nowIn(desk);
    if (!isPlain(offer)) return setPicked({ offer, time });
    const event = eventEdit(tapped(offer, time, firstChosen(offer)));
    if (await desk.act([...dayEdits(desk), event])) done();
  };
  const button = (offer: Offer) => (
    <button
      key={offer.do + (offer.part ?? '')}
      type="button"
      data-do={offer.do}
      aria-pressed={picked?.offer.do === offer.do && picked.offer.part === offer.part}
      onClick={() => void pick(offer)}
    >
      {say(`case.do.${offer.do}`)}
      {offer.part !== undefined && placed.part === undefined && <small>{offer.part}</small>}
    </button>
  );
  if (placed.offers.length === 0) return <p class="hint">{say('case.no-offers')}</p>;
  return (
    <>
      <div class="offers">{usual.map(button)}</div>
      {rest.length > 0 && (
        <details>
          <summary>{say('case.more')}</summary>
          <div class="offers">{rest.map(button)}</div>
        </details>
      )}
      {picked && (
        <OfferForm
          key={picked.offer.do + (picked.offer.part ?? '')}
          offer={picked.offer}
          begun={picked.time}
          done={done}
        />
      )}
    </>
  );
}

/** Verbs that say little without what is typed first. */
const TOLD: ReadonlySet<string> = new Set(['aspirate', 'inject', 'flush', 'inflate', 'measure', 'set']);

interface FormProps extends Pick<Props, 'done'> {
  readonly offer: Offer;
  readonly begun: string;
}

function OfferForm({ offer, begun, done }: FormProps) {
  const desk = useDesk();
  const { act, seen, fields } = desk;
  const form = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Said of nearly every one: whoever dictates need not touch the field first.
    if (TOLD.has(offer.do)) form.current?.querySelector<HTMLElement>('.small-fields .said input')?.focus();
  }, []);
  const [chosen, setChosen] = useState<Chosen>(() => firstChosen(offer));
  const [time, setTime] = useState(begun);
  const [said, setSaid] = useState<Readonly<Record<string, Tree>>>({});
  const name = nameIn(seen.placed, seen.tree);
  const nodes = fields?.sheets.find(node => node.name === 'events')?.children ?? [];
  const write = async () => {
    if (await act([...dayEdits(desk), eventEdit(tapped(offer, time, chosen, said))])) done();
  };
  const ways = waysSaid(waysIn(offer, chosen), name);
  const set = (field: string, value: Tree | undefined) => {
    const { [field]: _, ...others } = said;
    setSaid(value === undefined ? others : { ...others, [field]: value });
  };
  return (
    <div class="offer-form" ref={form}>
      {relations.map(relation => {
        const keys = offer[relation] ?? [];
        // An exchange has one that comes out; over and through may be nothing at all.
        const choices = relation === 'replaces' ? keys : [...keys, undefined];
        if (keys.length === 0 || choices.length < 2) return null;
        return (
          <fieldset key={relation}>
            <legend>{say(`case.choose.${relation}`)}</legend>
            {choices.map(key => (
              <button
                key={key ?? ''}
                type="button"
                aria-pressed={chosen[relation] === key}
                onClick={() => {
                  const { [relation]: _, ...others } = chosen;
                  setChosen(key === undefined ? others : { ...others, [relation]: key });
                }}
              >
                {key === undefined ? say('case.nothing') : name(key)}
              </button>
            ))}
          </fieldset>
        );
      })}
      {offer.with && (
        <Together
          keys={offer.with}
          chosen={chosen.with ?? []}
          set={keys => setChosen({ ...chosen, with: keys })}
          name={name}
        />
      )}
      {(offer.most ?? 1) > 1 && (
        <HowMany
          most={offer.most ?? 1}
          count={chosen.count ?? 1}
          set={count => setChosen({ ...chosen, count })}
        />
      )}
      <button type="button" class="main" onClick={() => void write()}>
        {say('case.write', { what: say(`case.do.${offer.do}`), time: time.slice(-5) })}
        {ways !== '' && <small>{ways}</small>}
      </button>
      <div class="small-fields">
        {nodes
          .filter(node => node.name === 'at')
          .map(node => (
            <FieldInput
              key="at"
              id="offer-at"
              node={node}
              value={time}
              set={value => setTime(typeof value === 'string' ? value : begun)}
            />
          ))}
        {offer.fields.map(field => {
          const node = nodes.find(one => one.name === field);
          return node ? (
            <div class="said" key={field}>
              <FieldInput
                id={`offer-${field}`}
                node={node}
                value={said[field]}
                set={value => set(field, value)}
              />
            </div>
          ) : null;
        })}
      </div>
    </div>
  );
}

/** What moves with it, if anything does: seldom said, so that it takes no room until it is asked for. */
function Together({
  keys,
  chosen,
  set,
  name,
}: {
  readonly keys: readonly string[];
  readonly chosen: readonly string[];
  readonly set: (keys: readonly string[]) => void;
  readonly name: (key: string) => string;
}) {
  return (
    <details class="together">
      <summary>{say('case.choose.with')}</summary>
      <div class="offers">
        {keys.map(key => (
          <button
            key={key}
            type="button"
            data-with={key}
            aria-pressed={chosen.includes(key)}
            onClick={() =>
              // In the order in which they are offered, whatever the order of the touches.
              set(keys.filter(one => (one === key) !== chosen.includes(one)))
            }
          >
            {name(key)}
          </button>
        ))}
      </div>
    </details>
  );
}

function HowMany({
  most,
  count,
  set,
}: {
  readonly most: number;
  readonly count: number;
  readonly set: (n: number) => void;
}) {
  return (
    <fieldset class="how-many">
      <legend>{say('case.how-many', { most })}</legend>
      <button
        type="button"
        aria-label={say('case.fewer')}
        disabled={count <= 1}
        onClick={() => set(count - 1)}
      >
        −
      </button>
      <output>{count}</output>
      <button
        type="button"
        aria-label={say('case.one-more')}
        disabled={count >= most}
        onClick={() => set(count + 1)}
      >
        +
      </button>
    </fieldset>
  );
}
