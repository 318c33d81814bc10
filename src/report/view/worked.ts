import type { Calculation } from '../../clinical/calculation.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, section, table } from './blocks.js';
import type { Section } from './model.js';

function result(p: Printer, { result: found, notAssessed }: Calculation): string | undefined {
  if (found !== undefined) return p.text(found.text);
  return notAssessed && p.say('worked.not', { why: notAssessed });
}

/** Figures worked out, each with its inputs and the rule, so that a reader can check them. */
export function workedSection(p: Printer): Section {
  const list = p.assessment.calculations;
  if (list.length === 0) return section(p, 'worked', [facts(p, undefined, [fact(p, 'worked', absent(p))])]);
  return section(p, 'worked', [
    table(
      p,
      'section.worked',
      ['calculation', 'worked', 'inputs', 'rule'],
      list.map(calculation => ({
        key: calculation.key,
        cells: [
          p.text(calculation.what),
          result(p, calculation),
          calculation.inputs.length > 0
            ? calculation.inputs.map(({ name, value }) => p.say('field', { label: name, value }))
            : null,
          [p.text(calculation.rule), p.text(calculation.basis)],
        ],
      })),
      true,
    ),
  ]);
}
