import { useEffect, useState } from 'preact/hooks';
import type { Destinations, Finding } from '../../answers.js';
import { say } from '../../words.js';
import { ask, keepAsking } from '../ask/ask.js';
import { FindingLines } from '../finish/finding-lines.js';

interface KitName {
  readonly name: string;
  readonly file: string;
}

/** What POST /intake/begin answers, as far as the page reads it. */
interface Begun {
  readonly record?: string;
  readonly set: readonly unknown[];
  readonly added: readonly unknown[];
  readonly unreached: boolean;
  readonly findings: readonly Finding[];
}

interface Props {
  readonly by: string | undefined;
  readonly ready: boolean;
  /** Whether the register may be asked what is inside the patient of the order. */
  readonly inside: boolean;
}

/**
 * Begins a case from an order in a record system, with what the register has inside its patient, and from kits: nothing is
 * kept before it is begun.
 */
export function FromOrder({ by, ready, inside }: Props) {
  const [open, setOpen] = useState(false);
  const [sources, setSources] = useState<readonly string[]>();
  const [kits, setKits] = useState<readonly KitName[]>([]);
  const [from, setFrom] = useState<string>();
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [order, setOrder] = useState('');
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const [found, setFound] = useState<Begun>();
  useEffect(() => {
    if (!open) return undefined;
    const ends = [
      keepAsking<Destinations>('v1/destinations', {}, answer => {
        const names = answer.ok ? answer.body.destinations.map(({ name }) => name) : [];
        setSaid(answer.ok ? '' : answer.text);
        setSources(names);
        if (names.length === 1) setFrom(names[0]);
      }),
      keepAsking<{ readonly kits: readonly KitName[] }>('v1/intake/kits', {}, answer => {
        if (answer.ok) setKits(answer.body.kits);
      }),
    ];
    return () => {
      for (const end of ends) end();
    };
  }, [open]);

  const begin = async (record: string) => {
    const answer = await ask<{ readonly id: string }>('v1/drafts', { record, by });
    if (answer.ok) location.hash = answer.body.id;
    else setSaid(say('case.home.not-begun', { why: answer.text }));
  };
  const look = async () => {
    const number = order.trim();
    if (busy || !ready || (number === '' && chosen.size === 0)) return;
    setBusy(true);
    setFound(undefined);
    setSaid(say('case.home.asking'));
    const answer = await ask<Begun>('v1/intake/begin', {
      json: {
        ...(number !== '' && { order: number, ...(from && { from }), register: inside }),
        kits: [...chosen],
      },
    });
    setBusy(false);
    setSaid(answer.ok ? '' : answer.text);
    if (!answer.ok) return;
    const { record, set, added, unreached } = answer.body;
    // Notes stand in the record as what is still open; anything else is looked at first.
    const findings = answer.body.findings.filter(({ severity }) => severity !== 'information');
    if (record !== undefined && findings.length === 0 && !unreached) return begin(record);
    setFound({ ...answer.body, findings });
    if (number !== '' && set.length === 0 && added.length === 0) setSaid(say('case.home.no-order'));
  };
  const toggled = (name: string) => {
    const next = new Set(chosen);
    if (!next.delete(name)) next.add(name);
    return next;
  };
  return (
    <details class="from-order" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('case.home.from-order')}</summary>
      <form
        onSubmit={event => {
          event.preventDefault();
          void look();
        }}
      >
        {sources === undefined && <p class="none">{say('case.opening')}</p>}
        {sources?.length === 0 && kits.length === 0 && <p class="none">{say('case.home.no-sources')}</p>}
        {sources !== undefined && sources.length > 0 && (
          <>
            <label for="order">{say('case.home.order')}</label>
            <input
              id="order"
              value={order}
              autocomplete="off"
              autocapitalize="off"
              spellcheck={false}
              maxLength={200}
              onInput={event => setOrder(event.currentTarget.value)}
            />
          </>
        )}
        {sources !== undefined && sources.length > 1 && (
          <Choices
            legend={say('case.home.order-from')}
            names={sources.map(name => ({ name, file: name }))}
            on={name => name === from}
            touch={setFrom}
          />
        )}
        {kits.length > 0 && (
          <Choices
            legend={say('case.home.kits')}
            names={kits}
            on={file => chosen.has(file)}
            touch={file => setChosen(toggled(file))}
          />
        )}
        <button
          type="submit"
          class="main"
          disabled={busy || !ready || (order.trim() === '' && chosen.size === 0)}
        >
          {say('case.home.begin-with')}
        </button>
      </form>
      <p role="status">{said}</p>
      {found && (
        <>
          <FindingLines findings={found.findings} />
          {found.record !== undefined && (
            <button type="button" onClick={() => void begin(found.record ?? '')}>
              {say('case.home.begin-anyway')}
            </button>
          )}
        </>
      )}
    </details>
  );
}

interface ChoicesProps {
  readonly legend: string;
  readonly names: readonly KitName[];
  readonly on: (file: string) => boolean;
  readonly touch: (file: string) => void;
}

function Choices({ legend, names, on, touch }: ChoicesProps) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div class="choices">
        {names.map(({ name, file }) => (
          <button key={file} type="button" aria-pressed={on(file)} onClick={() => touch(file)}>
            {name}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
