import type { Calculation } from '../../clinical/calculation.js';
import type { Printer } from '../print/printer.js';
import { workedPart } from '../print/worked.js';
import { absent, fact, facts, section, table } from './blocks.js';
import type { Section } from './model.js';

function result(p: Printer, { said: { result: found, notAssessed } }: Calculation): string | undefined {
  if (found !== undefined) return workedPart(p, found);
  return notAssessed && p.say('worked.not', { why: workedPart(p, notAssessed) });
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
          workedPart(p, calculation.said.what),
          result(p, calculation),
          calculation.inputs.length > 0
            ? calculation.inputs.map(({ said: { name, value } }) =>
                p.say('field', { label: workedPart(p, name), value: workedPart(p, value) }),
              )
            : null,
          [workedPart(p, calculation.said.rule), workedPart(p, calculation.said.basis)],
        ],
      })),
      true,
    ),
  ]);
}
