import { useEffect, useState } from 'preact/hooks';
import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { mergedWith } from '../desk/merging.js';
import { addressOf } from '../desk/service.js';

interface KitName {
  readonly name: string;
  /** Of its file. */
  readonly file: string;
}

/** Kits of the site: their devices come onto the table, and nothing else of them counts yet. */
export function KitsView({ done }: { readonly done: () => void }) {
  const { service, session, tell } = useDesk();
  const [kits, setKits] = useState<readonly KitName[] | 'away'>();
  useEffect(() => {
    service.clock
      .fetch(addressOf('v1/intake/kits'), { cache: 'no-store', redirect: 'error' })
      .then(async answer => setKits(answer.ok ? ((await answer.json()) as { kits: KitName[] }).kits : 'away'))
      .catch(() => setKits('away'));
  }, [service]);
  const put = async ({ file, name }: KitName) => {
    const { text } = session.view();
    const made = await mergedWith(service.clock.fetch, text, { kit: file });
    const not = made?.record === undefined ? [] : await session.replace(text, made.record);
    if (!not) done();
    const [error] = made?.findings.filter(one => one.severity === 'error') ?? [];
    tell(
      not
        ? say('case.not-made')
        : error
          ? `${error.message} ${error.remedy}`
          : say('case.added', { what: name }),
    );
  };
  if (kits === undefined) return <p role="status">{say('case.opening')}</p>;
  if (kits === 'away') return <p role="status">{say('case.kits-away')}</p>;
  if (kits.length === 0) return <p>{say('case.no-kits')}</p>;
  return (
    <div class="offers">
      {kits.map(kit => (
        <button key={kit.file} type="button" onClick={() => void put(kit)}>
          {kit.name}
        </button>
      ))}
    </div>
  );
}
