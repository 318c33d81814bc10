import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import { convert } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Case, Spot } from './claim.js';
import { claims } from './claims.js';
import { contradicts, figuresIn } from './figure.js';
import { clausesOf, isTold, type Told, toldTexts } from './texts.js';

/** Figures of free text that contradict the field they are about; a finding for each text. */
export function checkToldFigures(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): Finding[] {
  const of: Case = { record, devices };
  const { before, sedation } = record;
  const beside: Told[] = [
    ...entriesOf(record.complications).map(
      ({ action }, i): Told => ({ path: `complications[${i}].action`, text: action ?? '', scope: 'finding' }),
    ),
    { path: 'before.observations', text: before?.observations ?? '', scope: 'finding' },
    {
      path: 'sedation.note',
      text: (sedation !== undefined && sedation !== 'none' && sedation.note) || '',
      scope: 'finding',
    },
  ];
  return [
    ...[...toldTexts(record), ...beside].flatMap(told => first(told, of)),
    ...measuredGradients(record),
    ...waists(record),
    ...ownWords(record),
  ];
}

function first(told: Told, of: Case): Finding[] {
  for (const clause of clausesOf(told.text))
    for (const figure of figuresIn(clause)) {
      const end = figure.index + figure.length;
      if (!isTold(clause, figure.index, figure.length)) continue;
      const spot: Spot = {
        told,
        clause,
        figure,
        before: clause.slice(0, figure.index),
        after: clause.slice(end),
      };
      for (const claim of claims) {
        const recorded = claim(spot, of);
        if (!recorded) continue;
        const other = contradicts(
          figure,
          recorded.map(({ quantity }) => quantity),
        );
        const place = recorded.find(({ quantity }) => quantity === other)?.place;
        if (!other || place === undefined) break;
        return [
          finding('clinical.measurement-differs', told.path, {
            what: message('measure.told', { text: clause.trim() }),
            value: { quantity: figure.quantity },
            other: { quantity: other },
            place,
          }),
        ];
      }
    }
  return [];
}

/** The pressure of a measurement that calls itself the gradient of its target. */
function measuredGradients(record: CaseRecord): Finding[] {
  return (record.events ?? []).flatMap((event, i) => {
    const target = event.target === undefined ? undefined : record.targets?.[event.target];
    if (event.do !== 'measure' || !event.pressure || !target || !/\bgradient\b/i.test(event.result ?? ''))
      return [];
    const recorded = [target.pressureBefore, target.pressureAfter].flatMap(one => one ?? []);
    const told = { quantity: event.pressure, index: 0, length: 0, near: false };
    const other = contradicts(told, recorded);
    return other
      ? [
          finding('clinical.measurement-differs', `events[${i}].pressure`, {
            what: message('measure.gradient'),
            value: { quantity: event.pressure },
            other: { quantity: other },
            place: `targets.${event.target ?? ''}`,
          }),
        ]
      : [];
  });
}

/** A measured pressure and the words of the same event: one of the figures told is the one entered. */
function ownWords(record: CaseRecord): Finding[] {
  return (record.events ?? []).flatMap(({ do: verb, pressure, result }, i) => {
    if (verb !== 'measure' || !pressure || result === undefined) return [];
    const told = figuresIn(result).filter(({ quantity }) => convert(quantity, pressure.code) !== undefined);
    const [first] = told;
    if (!first || told.some(one => contradicts(one, [pressure]) === undefined)) return [];
    return [
      finding('clinical.measurement-differs', `events[${i}].result`, {
        what: message('measure.told', { text: result }),
        value: { quantity: first.quantity },
        other: { quantity: pressure },
        place: `events[${i}].pressure`,
      }),
    ];
  });
}

/** A waist cannot give way at a pressure that was not reached. */
function waists(record: CaseRecord): Finding[] {
  return (record.events ?? []).flatMap((event, i) => {
    if (event.do !== 'inflate' || !event.pressure) return [];
    const reached = convert(event.pressure, 'kPa');
    const beyond = figuresIn(event.result ?? '').find(({ quantity }) => {
      const told = ['atm', 'bar'].includes(quantity.code) ? convert(quantity, 'kPa') : undefined;
      return told && reached && told.gt(reached.times('1.1'));
    });
    return beyond
      ? [
          finding('clinical.measurement-differs', `events[${i}].result`, {
            what: message('measure.told', { text: event.result ?? '' }),
            value: { quantity: beyond.quantity },
            other: { quantity: event.pressure },
            place: `events[${i}].pressure`,
          }),
        ]
      : [];
  });
}
