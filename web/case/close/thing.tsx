import { useState } from 'preact/hooks';
import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import type { Offer } from '../../../src/trays/offers.js';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { briefly, isGroup, type Tree } from '../desk/tree.js';
import { FieldInput } from '../sheets/field-input.js';
import { Offers } from '../trays/offers-view.js';
import { addTo, type Remaining, type Said, stayEdits, thingOf } from './entries.js';

type Answer = 'stays' | 'out' | 'missing';
const ANSWERS = ['stays', 'out', 'missing'] as const satisfies readonly Answer[];

/** Ways out. */
const OUT: ReadonlySet<string> = new Set(['remove', 'retrieve', 'peel away', 'exchange']);

/** What comes before one of them, where something is held. */
const FREES: ReadonlySet<string> = new Set(['unlock', 'deflate']);

/** The same with the ways out before everything else that can be done with it. */
function outFirst(placed: PlacedRow): PlacedRow {
  const rank = ({ do: verb, part }: Offer) =>
    OUT.has(verb) && part === placed.part ? 0 : FREES.has(verb) ? 1 : 2;
  return { ...placed, offers: [...placed.offers].sort((a, b) => rank(a) - rank(b)) };
}

/** One thing in the patient of which nobody has said what becomes of it. */
export function Thing({ remaining }: { readonly remaining: Remaining }) {
  const [answer, setAnswer] = useState<Answer>();
  const { placed, open } = remaining;
  const held = !placed.offers.some(one => one.part === placed.part && OUT.has(one.do));
  const id = `thing-${placed.device}${placed.part === undefined ? '' : `-${placed.part}`}`;
  return (
    <li class="thing" aria-labelledby={id}>
      <h4 id={id}>
        {placed.name}
        {placed.count > 1 && <span class="count"> × {open}</span>}
      </h4>
      <div class="offers">
        {ANSWERS.map(one => (
          <button
            key={one}
            type="button"
            data-answer={one}
            aria-pressed={answer === one}
            onClick={() => setAnswer(answer === one ? undefined : one)}
          >
            {say(`case.finish.${one}`)}
          </button>
        ))}
      </div>
      {answer === 'stays' && <Stays id={id} remaining={remaining} />}
      {answer === 'out' && held && <p class="hint">{say('case.finish.held')}</p>}
      {answer === 'out' && <Offers placed={outFirst(placed)} done={() => setAnswer(undefined)} />}
      {answer === 'missing' && <Missing id={id} remaining={remaining} />}
    </li>
  );
}

interface FormProps {
  readonly id: string;
  readonly remaining: Remaining;
}

/** Fields of an entry, as the schema names them. */
function useEntry(list: 'left' | 'missing' | 'aftercare') {
  const { fields } = useDesk();
  const [said, setSaid] = useState<Said>({});
  const nodes =
    fields?.sheets.find(({ name, children }) => name === list && children.length > 0)?.children ?? [];
  const set = (name: string, value: Tree | undefined) =>
    setSaid(before => {
      const { [name]: _, ...others } = before;
      return value === undefined ? others : { ...others, [name]: value };
    });
  return { said, set, setAll: setSaid, nodes };
}

/** It stays: what for, and when, by whom or on what condition it comes out. */
function Stays({ id, remaining }: FormProps) {
  const { act, seen } = useDesk();
  const { said, set, setAll, nodes } = useEntry('left');
  const plan = useEntry('aftercare');
  const temporary = said['purpose'] === 'temporary';
  // What is meant to stay may have to be changed all the same, as a ureteric stent.
  const ending = temporary || said['purpose'] === 'intended';
  const proposed = seen.proposed.flatMap(({ path, from, value }) =>
    path === 'left' && isGroup(value) && value['device'] === remaining.placed.device ? [{ from, value }] : [],
  );
  const until = isGroup(said['until']) ? said['until'] : {};
  const ends = nodes.find(({ name }) => name === 'until')?.children ?? [];
  const by = plan.said['by'];
  const task = say('case.finish.task', { what: remaining.placed.name });
  const write = () => {
    const thing = thingOf(remaining.placed, seen.tree, remaining.open);
    const who = temporary && typeof by === 'string' ? by : undefined;
    const { until: _, latest: __, ...lasting } = said;
    void act(stayEdits(seen.tree, thing, ending ? said : lasting, who, task));
  };
  const field = (name: string) =>
    nodes
      .filter(node => node.name === name)
      .map(node => (
        <FieldInput
          key={name}
          id={`${id}-${name}`}
          node={node}
          value={said[name]}
          set={value => set(name, value)}
        />
      ));
  return (
    <div class="fields">
      {proposed.map(({ from, value: { device: _, part: __, ...fields } }, index) => (
        <button key={index} type="button" class="as-proposed" onClick={() => setAll(fields)}>
          {say('case.finish.as-proposed', { from })} <small>{briefly(fields)}</small>
        </button>
      ))}
      {field('purpose')}
      {ending && (
        <>
          {ends.map(node => (
            <FieldInput
              key={node.name}
              id={`${id}-until-${node.name}`}
              node={node}
              value={until[node.name]}
              set={value => {
                const { [node.name]: _, ...others } = until;
                const next = value === undefined ? others : { ...others, [node.name]: value };
                set('until', Object.keys(next).length === 0 ? undefined : next);
              }}
            />
          ))}
          {field('latest')}
          {temporary &&
            plan.nodes
              .filter(({ name }) => name === 'by')
              .map(node => (
                <FieldInput
                  key="by"
                  id={`${id}-by`}
                  node={{ ...node, label: say('case.finish.by') }}
                  value={by}
                  set={value => plan.set('by', value)}
                />
              ))}
        </>
      )}
      {['site', 'set', 'fixedBy', 'note'].map(field)}
      <button type="button" class="main" disabled={said['purpose'] === undefined} onClick={write}>
        {say('case.finish.write-stays')}
      </button>
    </div>
  );
}

/** It cannot be found: what was done to find it, and who was told. */
function Missing({ id, remaining }: FormProps) {
  const { act, seen } = useDesk();
  const { said, set, nodes } = useEntry('missing');
  const asked = nodes.filter(({ name }) => !['device', 'part', 'count'].includes(name));
  const lacks = asked.filter(({ name, required }) => required && said[name] === undefined);
  const [told, setTold] = useState('');
  // Never disabled: a field is taken over when it is left, and nobody leaves it for a button that does nothing.
  const write = () => {
    // Before the fields are there nobody knows which of them it needs.
    if (nodes.length === 0) return;
    if (lacks.length > 0) {
      setTold(say('case.finish.lacks', { what: lacks.map(({ label }) => label).join(', ') }));
      return;
    }
    const thing = thingOf(remaining.placed, seen.tree, remaining.open);
    void act([addTo(seen.tree, 'missing', { ...thing, ...said })]);
  };
  return (
    <div class="fields">
      <p class="hint">{say('case.finish.missing-hint')}</p>
      {asked.map(node => (
        <FieldInput
          key={node.name}
          id={`${id}-${node.name}`}
          node={node}
          value={said[node.name]}
          set={value => set(node.name, value)}
        />
      ))}
      <p role="status">{told}</p>
      <button type="button" class="main" onClick={write}>
        {say('case.finish.write-missing')}
      </button>
    </div>
  );
}
