import type { Printer } from '../print/printer.js';
import { absent, detail, fact, facts, none, said, section, table } from './blocks.js';
import type { Block, Fact, Section } from './model.js';

function sedation(p: Printer): Fact[] {
  const entry = p.record.sedation;
  if (entry === undefined) return [fact(p, 'sedation', absent(p, true))];
  if (entry === 'none') return [fact(p, 'sedation', none(p, 'sedation.none'))];
  return [
    fact(p, 'sedation', said(p.say(`sedation.${entry.kind}`))),
    ...detail(p, 'sedationBy', entry.by && p.person(entry.by)),
    ...detail(p, 'started', entry.start && p.moment(entry.start)),
    ...detail(p, 'ended', entry.end && p.moment(entry.end)),
    ...detail(
      p,
      'sedationChanges',
      entry.changes?.map(({ at, to, why }) => {
        const change = p.say('sedation.change', { time: p.moment(at), kind: p.say(`sedation.${to}`) });
        return why === undefined ? change : p.say('sedation.changeWhy', { change, why });
      }),
    ),
    ...detail(p, 'monitoring', entry.monitoring),
    ...detail(p, 'note', entry.note),
  ];
}

function drugs(p: Printer): Block {
  const list = p.record.drugs;
  if (list === undefined) return facts(p, undefined, [fact(p, 'drugs', absent(p, true))]);
  if (list === 'none') return facts(p, undefined, [fact(p, 'drugs', none(p, 'drugs.none'))]);
  return table(
    p,
    'table.drugs',
    ['drug', 'dose', 'route', 'time', 'for', 'reaction', 'givenBy'],
    list.map((drug, index) => ({
      key: `drugs[${index}]`,
      cells: [
        drug.strength === undefined
          ? p.drug(drug.drug.text)
          : p.say('drug.strength', { drug: p.drug(drug.drug.text), strength: drug.strength }),
        p.quantity(drug.dose),
        p.say(`route.${drug.route}`),
        p.moment(drug.at),
        drug.for ? p.say(`purpose.${drug.for}`) : null,
        drug.reaction === undefined ? undefined : p.say(drug.reaction ? 'yes' : 'no'),
        drug.by === undefined ? null : p.person(drug.by),
      ],
      alert: drug.reaction === true,
    })),
    true,
  );
}

/** Vital signs and bedside values in the order of time; no table where there are none. */
function vitals(p: Printer): Block[] {
  const list = (p.record.vitals ?? []).map((entry, index) => ({ ...entry, index }));
  if (list.length === 0) return [];
  list.sort((a, b) => a.at.epoch - b.at.epoch || a.index - b.index);
  return [
    table(
      p,
      'table.vitals',
      ['measure', 'time', 'value'],
      list.map(({ at, what, value, index }) => ({
        key: `vitals[${index}]`,
        cells: [
          p.value(what.text),
          p.moment(at),
          'systolic' in value
            ? p.say('vital.pressures', {
                systolic: p.quantity(value.systolic),
                diastolic: p.quantity(value.diastolic),
              })
            : p.quantity(value),
        ],
      })),
    ),
  ];
}

export function drugsSection(p: Printer): Section {
  return section(p, 'drugs', [facts(p, undefined, sedation(p)), drugs(p), ...vitals(p)]);
}
