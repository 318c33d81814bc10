import type { AftercareItem, Checked, DueDate, Quantity, TallyRow } from './answers.js';
import { byId, element, lines, table } from './element.js';
import { lineButton } from './record-text.js';

const tally = byId('tally', HTMLElement);
const worked = byId('worked', HTMLElement);
const care = byId('care', HTMLElement);

/** Where something is, or may be, inside that nobody meant to leave. */
const ALARMING = new Set(['retained unintended', 'unaccounted', 'removed with a part missing']);

let picture: string | undefined;

/** Tally, worked-out values and aftercare; `timeline` is SVG, there when the record is whole. */
export function showResults(checked: Checked, timeline: string | undefined): void {
  showTally(checked.tally, timeline);
  showWorked(checked);
  showCare(checked, timeline !== undefined);
}

function showTally(rows: readonly TallyRow[], timeline: string | undefined): void {
  if (picture !== undefined) URL.revokeObjectURL(picture);
  picture = undefined;
  tally.replaceChildren(
    rows.length === 0
      ? element('p', {}, 'No device is recorded.')
      : table(
          'Where each device and part is at the end',
          ['Device', 'State', 'Why', 'Event'],
          rows.map(row => [
            `${row.device}: ${row.count > 1 ? `${row.count} × ` : ''}${row.name}`,
            element(
              'span',
              {},
              ALARMING.has(row.state) ? element('strong', {}, row.state) : row.state,
              row.site === undefined ? '' : `, ${row.site}`,
            ),
            row.because,
            row.line === undefined ? '' : lineButton(row.line),
          ]),
        ),
  );
  if (timeline === undefined) {
    tally.append(element('p', {}, 'There is no timeline: the record must be readable as a whole first.'));
    return;
  }
  // As an image the picture can neither run nor fetch anything.
  picture = URL.createObjectURL(new Blob([timeline], { type: 'image/svg+xml' }));
  const alt = 'Timeline of the devices. The table above says in words what it shows.';
  tally.append(
    element(
      'figure',
      {},
      element('figcaption', {}, 'Timeline'),
      element(
        'div',
        { class: 'wide', role: 'region', tabindex: '0', 'aria-label': 'Timeline of the devices' },
        element('img', { src: picture, alt }),
      ),
    ),
  );
}

function showWorked({ calculations, notChecked }: Checked): void {
  worked.replaceChildren(
    calculations.length === 0
      ? element('p', {}, 'Nothing could be worked out from what is recorded.')
      : table(
          'Worked out from the record',
          ['What', 'Result', 'From', 'Rule and source'],
          calculations.map(one => [
            one.what,
            one.result ? element('strong', {}, one.result.text) : `not assessed: ${one.notAssessed ?? ''}`,
            lines(one.inputs.map(({ name, value }) => `${name} ${value}`)),
            lines([one.rule, one.basis]),
          ]),
        ),
  );
  if (notChecked.length > 0)
    worked.append(
      element(
        'details',
        {},
        element('summary', {}, `Sizes not checked (${notChecked.length})`),
        element('ul', {}, ...notChecked.map(one => element('li', {}, `${one.what}: ${one.because}`))),
      ),
    );
}

function showCare({ aftercare, tally: rows }: Checked, whole: boolean): void {
  const nameOf = (key: string) => rows.find(row => row.device === key && row.part === undefined)?.name ?? key;
  const doubt = whole
    ? []
    : [element('p', { class: 'problem' }, 'The record is not whole: items or dates may be missing here.')];
  care.replaceChildren(
    ...doubt,
    aftercare.length === 0
      ? element('p', {}, 'No aftercare is recorded.')
      : table(
          'What is to be done after the case',
          ['What', 'When', 'By', 'If, and whom to call'],
          [...aftercare]
            .sort(byDay)
            .map(item => [
              `${item.urgent ? 'URGENT: ' : ''}${item.what}${item.device === undefined ? '' : ` (${nameOf(item.device)})`}`,
              lines(whenOf(item)),
              item.by,
              lines([
                ...item.criteria.map(
                  ({ measure, is, value, over, action }) =>
                    `If ${[measure, is, value && quantity(value)].filter(Boolean).join(' ')}${over ? ` over ${quantity(over)}` : ''}: ${action}`,
                ),
                ...said('If missed', item.ifMissed),
                ...said('Call', item.call),
                ...said('Policy', item.policy),
              ]),
            ]),
        ),
  );
}

const said = (word: string, text: string | undefined) => (text === undefined ? [] : [`${word}: ${text}`]);

const whenOf = (item: AftercareItem) => [
  ...said('Earliest', dateOf(item.earliest)),
  ...said('Due', dateOf(item.due)),
  ...said('Latest', dateOf(item.latest)),
  ...said('When', item.condition),
  ...said('Every', item.every),
  ...said('For', item.duration),
];

function dateOf(due: DueDate | undefined): string | undefined {
  if (!due) return undefined;
  const working = due.workingDay === undefined ? '' : `, working day ${due.workingDay}`;
  return `${due.date}${due.counted ? ` (${due.written})` : ''}${working}`;
}

/** Items without a day come last. */
function byDay(a: AftercareItem, b: AftercareItem): number {
  const day = ({ due, latest, earliest }: AftercareItem) => (due ?? latest ?? earliest)?.date ?? '~';
  return day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : 0;
}

const quantity = ({ comparator, value, unit }: Quantity) =>
  `${comparator === undefined ? '' : `${comparator} `}${value}${unit === '%' || unit === '' ? '' : ' '}${unit}`;
