import type { Finding } from '../../answers.js';
import { say } from '../../words.js';
import { FindingLines } from '../finish/finding-lines.js';

interface InsideItem {
  readonly key: string;
  readonly name: string;
  readonly state: string;
  readonly alert: boolean;
  readonly lines: readonly string[];
}

/** POST /drafts/ID/to-sign. */
export interface Summary {
  readonly ready: boolean;
  readonly facts: readonly {
    readonly key: string;
    readonly label: string;
    readonly lines: readonly string[];
  }[];
  readonly inside: readonly InsideItem[];
  readonly whereabouts: readonly InsideItem[];
  readonly notices: readonly string[];
  readonly goesTo: readonly string[];
  readonly findings: readonly Finding[];
}

/** Of whom, what, which side, what stays, what is not accounted for, where it goes, and what stands against it. */
export function SummaryView({ summary }: { readonly summary: Summary }) {
  const { facts, inside, whereabouts, notices, goesTo, findings } = summary;
  const standing = findings.filter(({ severity }) => severity !== 'information');
  return (
    <div class="summary">
      <dl>
        {facts
          .filter(({ lines }) => lines.length > 0)
          .map(({ key, label, lines }) => (
            <div key={key} data-fact={key}>
              <dt>{label}</dt>
              {lines.map(line => (
                <dd key={line}>{line}</dd>
              ))}
            </div>
          ))}
        {goesTo.length > 0 && (
          <div data-fact="goes-to">
            <dt>{say('screen.take.where')}</dt>
            <dd>{goesTo.join(', ')}</dd>
          </div>
        )}
      </dl>
      {notices.map(notice => (
        <p key={notice}>{notice}</p>
      ))}
      <Items title={say('case.sign.inside')} none={say('case.sign.nothing-stays')} items={inside} />
      {whereabouts.length > 0 && <Items title={say('case.sign.whereabouts')} none="" items={whereabouts} />}
      <h4>{say('case.finish.against')}</h4>
      {standing.length === 0 ? <p>{say('case.no-findings')}</p> : <FindingLines findings={standing} />}
    </div>
  );
}

function Items({
  title,
  none,
  items,
}: {
  readonly title: string;
  readonly none: string;
  readonly items: readonly InsideItem[];
}) {
  return (
    <>
      <h4>{title}</h4>
      {items.length === 0 && <p>{none}</p>}
      <ul class="things">
        {items.map(({ key, name, state, alert, lines }) => (
          <li key={key} class={alert ? 'thing finding error' : 'thing'}>
            <strong>{name}</strong> <span>{state}</span>
            {lines.map(line => (
              <small key={line}>{line}</small>
            ))}
          </li>
        ))}
      </ul>
    </>
  );
}
