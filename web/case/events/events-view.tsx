import { useEffect, useRef, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { listAt, textAt } from '../desk/tree.js';
import { FieldInput } from '../sheets/field-input.js';

/** What was done, in the order of the record, newest last. */
export function EventsView() {
  const { seen } = useDesk();
  const [open, setOpen] = useState<number>();
  const events = listAt(seen.tree, 'events');
  const box = useRef<HTMLOListElement>(null);
  useEffect(() => {
    // The newest in sight, without moving the page.
    if (box.current && open === undefined) box.current.scrollTop = box.current.scrollHeight;
  }, [events.length, open]);
  return (
    <section class="events" aria-labelledby="events">
      <h2 id="events">
        {say('case.events')} <span class="count">{events.length}</span>
      </h2>
      {events.length === 0 && <p class="none">{say('case.no-events')}</p>}
      {/* Scrolls by itself, so it can be reached by keys. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must take the focus */}
      <ol ref={box} hidden={events.length === 0} tabIndex={0} aria-labelledby="events">
        {events.map((event, index) => (
          <li key={index} data-moves class={open === index ? 'open' : ''}>
            <button
              type="button"
              class="row-open"
              aria-expanded={open === index}
              onClick={() => setOpen(open === index ? undefined : index)}
            >
              <time>{textAt(event, 'at') ?? say('case.no-time')}</time>
              <span class="said">{seen.said[index] ?? said(event)}</span>
            </button>
            {open === index && <EventForm index={index} close={() => setOpen(undefined)} />}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** The event as it stands, where nothing better can be said. */
const said = (event: ReturnType<typeof listAt>[number]): string =>
  ['do', 'device', 'part'].map(name => textAt(event, name) ?? '').join(' ');

function EventForm({ index, close }: { readonly index: number; readonly close: () => void }) {
  const { fields, seen, act, go, open } = useDesk();
  const path = `events[${index}]`;
  const node = fields?.sheets.find(one => one.name === 'events')?.children.find(one => one.name === 'at');
  if (!open) return null;
  return (
    <div class="row-more">
      {node && (
        <FieldInput
          id={`event-${index}-at`}
          node={node}
          value={textAt(seen.tree, `${path}.at`)}
          set={value => value !== undefined && void act([{ path: `${path}.at`, value }])}
        />
      )}
      <div class="offers">
        <button type="button" onClick={() => go({ view: 'record', path })}>
          {say('case.details')}
        </button>
        <button
          type="button"
          class="danger"
          onClick={() => {
            close();
            void act([{ path, remove: true }]);
          }}
        >
          {say('case.remove')}
        </button>
      </div>
    </div>
  );
}
