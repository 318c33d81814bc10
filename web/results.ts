import type { AftercareItem, Checked, TallyRow } from './answers.js';
import { byId, element, lines, table } from './element.js';
import { lineButton } from './record-text.js';
import { say } from './words.js';

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
      ? element('p', {}, say('screen.no-device'))
      : table(
          say('screen.tally'),
          [
            say('screen.tally.device'),
            say('screen.tally.state'),
            say('screen.tally.why'),
            say('screen.tally.event'),
          ],
          rows.map(row => [
            `${row.device}: ${row.count > 1 ? `${row.count} × ` : ''}${row.name}`,
            element(
              'span',
              {},
              ALARMING.has(row.state) ? element('strong', {}, stateOf(row)) : stateOf(row),
              row.site === undefined ? '' : `, ${row.site}`,
            ),
            row.because,
            row.line === undefined ? '' : lineButton(row.line),
          ]),
        ),
  );
  if (timeline === undefined) {
    tally.append(element('p', {}, say('screen.no-timeline')));
    return;
  }
  // As an image the picture can neither run nor fetch anything.
  picture = URL.createObjectURL(new Blob([timeline], { type: 'image/svg+xml' }));
  const alt = say('screen.timeline-alt');
  tally.append(
    element(
      'figure',
      {},
      element('figcaption', {}, say('screen.timeline')),
      element(
        'div',
        { class: 'wide', role: 'region', tabindex: '0', 'aria-label': say('screen.timeline') },
        element('img', { src: picture, alt }),
      ),
    ),
  );
}

const stateOf = ({ state, said }: TallyRow) => said?.state ?? state;

function showWorked({ calculations, notChecked }: Checked): void {
  worked.replaceChildren(
    calculations.length === 0
      ? element('p', {}, say('screen.nothing-worked'))
      : table(
          say('screen.worked'),
          [
            say('screen.worked.what'),
            say('screen.worked.result'),
            say('screen.worked.from'),
            say('screen.worked.rule'),
          ],
          calculations.map(one => [
            one.what,
            one.result
              ? element('strong', {}, one.result.text)
              : say('screen.not-assessed', { why: one.notAssessed ?? '' }),
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
        element('summary', {}, say('screen.sizes', { n: notChecked.length })),
        element('ul', {}, ...notChecked.map(one => element('li', {}, `${one.what}: ${one.because}`))),
      ),
    );
}

function showCare({ aftercare }: Checked, whole: boolean): void {
  const doubt = whole ? [] : [element('p', { class: 'problem' }, say('screen.care-in-part'))];
  care.replaceChildren(
    ...doubt,
    aftercare.length === 0
      ? element('p', {}, say('screen.no-care'))
      : table(
          say('screen.care'),
          [say('screen.care.what'), say('screen.care.when'), say('screen.care.by'), say('screen.care.call')],
          [...aftercare]
            .sort(byDay)
            .map(({ said }) => [said.what, lines(said.when), said.who, lines(said.call)]),
        ),
  );
}

/** Items without a day come last. */
function byDay(a: AftercareItem, b: AftercareItem): number {
  const day = ({ due, latest, earliest }: AftercareItem) => (due ?? latest ?? earliest)?.date ?? '~';
  return day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : 0;
}
