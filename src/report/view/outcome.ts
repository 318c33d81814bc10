import type { Printer } from '../print/printer.js';
import { labs } from './before.js';
import { absent, fact, facts, none, said, section, table } from './blocks.js';
import { endingFacts } from './ending.js';
import type { Block, Fact, Section } from './model.js';

export function outcome(p: Printer): Fact {
  const entry = p.record.outcome;
  return fact(p, 'outcome', entry ? said(p.say(`success.${entry.overall}`), entry.text) : absent(p, true));
}

export function conclusion(p: Printer): Fact {
  const { conclusion: text } = p.record;
  return fact(p, 'conclusion', text === undefined ? absent(p) : said(text));
}

export function bloodLoss(p: Printer): Fact {
  const loss = p.record.outcome?.bloodLoss;
  if (loss === undefined) return fact(p, 'bloodLoss', absent(p, true));
  if (loss === 'none') return fact(p, 'bloodLoss', none(p, 'loss.none'));
  return fact(p, 'bloodLoss', said(loss === 'minimal' ? p.say('loss.minimal') : p.quantity(loss)));
}

export function leaving(p: Printer, label: 'condition' | 'disposition'): Fact {
  const text = p.record.outcome?.[label];
  return fact(p, label, text === undefined ? absent(p, true) : said(text));
}

export function outcomeSection(p: Printer): Section {
  return section(p, 'outcome', [
    facts(p, undefined, [
      outcome(p),
      conclusion(p),
      leaving(p, 'condition'),
      leaving(p, 'disposition'),
      ...endingFacts(p),
      bloodLoss(p),
    ]),
    ...measurements(p),
    ...grades(p),
    ...labs(p, 'table.laterLabs', 'after.labs', p.record.after?.labs),
    ...urine(p),
  ]);
}

function measurements(p: Printer): Block[] {
  const list = p.record.outcome?.measurements ?? [];
  if (list.length === 0) return [];
  return [
    table(
      p,
      'table.measurements',
      ['measure', 'value', 'target'],
      list.map((row, index) => ({
        key: `outcome.measurements[${index}]`,
        cells: [
          p.value(row.what.text),
          row.unit === undefined ? p.decimal(row.value) : `${p.decimal(row.value)} ${row.unit}`,
          row.target === undefined ? null : p.target(row.target),
        ],
      })),
    ),
  ];
}

function grades(p: Printer): Block[] {
  const list = p.record.outcome?.grades ?? [];
  if (list.length === 0) return [];
  return [
    table(
      p,
      'table.grades',
      ['scale', 'gradeAlone', 'target'],
      list.map(({ scale, grade, target }, index) => ({
        key: `outcome.grades[${index}]`,
        cells: [scale, grade, target === undefined ? null : p.target(target)],
      })),
    ),
  ];
}

function urine(p: Printer): Block[] {
  const list = p.record.after?.urine ?? [];
  if (list.length === 0) return [];
  return [
    table(
      p,
      'table.urine',
      ['period', 'volume'],
      list.map((row, index) => ({
        key: `after.urine[${index}]`,
        cells: [p.say('range', { from: p.moment(row.from), to: p.moment(row.to) }), p.quantity(row.volume)],
      })),
    ),
  ];
}
