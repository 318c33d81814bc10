import { language, say } from '../../words.js';
import { dayAndTime } from '../desk/clock.js';
import { type CaseRow, dayBefore, needOf, needs } from './lists.js';

interface Props {
  /** Tells lists of one page apart. */
  readonly id: string;
  readonly rows: readonly CaseRow[];
  /** Today at the site; a row says its day where it is another. */
  readonly today: string | undefined;
  readonly timeZone: string | undefined;
}

/** Cases in groups by what they need next. */
export function CaseList({ id, rows, today, timeZone }: Props) {
  return (
    <>
      {needs.map(need => {
        const of = rows.filter(row => needOf(row) === need);
        if (of.length === 0) return null;
        return (
          <section key={need} class={`needs needs-${need}`} aria-labelledby={`${id}-${need}`}>
            <h3 id={`${id}-${need}`}>
              {say(`case.home.${need}`)} <span class="count">{of.length}</span>
            </h3>
            <ul>
              {of.map(row => (
                <Row key={row.id} row={row} today={today} timeZone={timeZone} />
              ))}
            </ul>
          </section>
        );
      })}
    </>
  );
}

/** One case. Its address has the opaque id and nothing of the case. */
function Row({ row, today, timeZone }: Omit<Props, 'id' | 'rows'> & { readonly row: CaseRow }) {
  const { id, patient, patientNumber, case: number, by, changed, leavesAt, why, items = [], state } = row;
  const time = (iso: string) => dayAndTime(Date.parse(iso), timeZone).time;
  const finish = state !== 'open' && state !== 'discarded';
  const facts = [
    [number, patientNumber].filter(Boolean).join(' · '),
    leavesAt !== undefined && state === 'signed' ? say('case.home.leaves', { time: time(leavesAt) }) : '',
    ...items.map(item =>
      say('screen.outbox.row', {
        destination: item.destination,
        state: sayState(item.state),
      }),
    ),
    state === 'discarded' ? say('case.home.discarded', { why: why ?? '' }) : (why ?? ''),
    say('case.home.changed', { by, time: time(changed) }),
  ].filter(fact => fact !== '');
  return (
    <li data-moves>
      <a class="case-row" href={`case${location.search}#${id}${finish ? '/finish' : ''}`}>
        <strong>{patient ?? say('case.no-patient')}</strong>
        {today !== undefined && row.day !== today && <span class="day">{dayText(row.day, today)}</span>}
        {facts.map(fact => (
          <small key={fact}>{fact}</small>
        ))}
      </a>
    </li>
  );
}

const STATES = ['waiting', 'sending', 'delivered', 'parked', 'discarded'] as const;
function sayState(state: string): string {
  const known = STATES.find(one => one === state);
  return known ? say(`case.item.${known}`) : state;
}

/** `Yesterday`, or the day itself as people of the language write it. */
function dayText(day: string, today: string): string {
  if (day === dayBefore(today)) return say('case.home.yesterday');
  return new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeZone: 'UTC' }).format(
    Date.parse(`${day}T12:00:00Z`),
  );
}
