import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import { convert, type Quantity } from '../../record/quantity.js';
import { beyond } from '../labs/measure.js';
import type { ClinicalLimits, Limit } from '../limits.js';
import { byCaseKind } from '../look-up.js';
import type { DoseTotal } from './earlier.js';
import type { Radiation } from './slip.js';

/** The levels of one figure, in its unit. */
export interface Levels {
  readonly what: Message;
  readonly field: 'airKerma' | 'peakSkinDose' | 'kermaAreaProduct' | 'fluoroscopyTime';
  readonly unit: string;
  readonly code: string;
  readonly notify: Limit | undefined;
  readonly step: Limit | undefined;
  readonly substantial: Limit | undefined;
}

/** The figures that have levels, each with those of the site. */
export function levelsOf(limits: ClinicalLimits['radiation']): Levels[] {
  return [
    {
      what: message('input.air-kerma'),
      field: 'airKerma',
      unit: 'Gy',
      code: 'Gy',
      notify: limits.airKermaNotify,
      step: limits.airKermaStep,
      substantial: limits.airKermaSubstantial,
    },
    {
      what: message('label.peakSkinDose'),
      field: 'peakSkinDose',
      unit: 'Gy',
      code: 'Gy',
      notify: limits.peakSkinDoseNotify,
      step: limits.peakSkinDoseStep,
      substantial: limits.peakSkinDoseSubstantial,
    },
    {
      what: message('input.kap'),
      field: 'kermaAreaProduct',
      unit: 'Gy·cm²',
      code: 'Gy.cm2',
      notify: limits.kermaAreaNotify,
      step: limits.kermaAreaStep,
      substantial: limits.kermaAreaSubstantial,
    },
    {
      what: message('label.fluoroscopyTime'),
      field: 'fluoroscopyTime',
      unit: 'min',
      code: 'min',
      notify: limits.fluoroscopyNotify,
      step: limits.fluoroscopyStep,
      substantial: limits.fluoroscopySubstantial,
    },
  ];
}

const reaches = (quantity: Quantity, code: string, limit: Limit) =>
  beyond(quantity, code, 'from', limit.value) === true;

/** Levels of the site: what was reached, which step was the last to be passed, and whose level it is. */
export function doseLevels(
  kind: string,
  given: Radiation,
  totals: readonly DoseTotal[],
  limits: ClinicalLimits['radiation'],
): { findings: Finding[]; substantial: boolean } {
  const findings: Finding[] = [];
  let substantial = false;
  for (const { what, field, unit, code, notify, step, substantial: level } of levelsOf(limits)) {
    const quantity = given[field];
    const path = `radiation.${field}`;
    const alone = quantity && level && reaches(quantity, code, level);
    if (alone) {
      const params = { what, value: { quantity }, limit: { quantity: { value: level.value, unit, code } } };
      findings.push(finding('clinical.dose-substantial', path, params, { basis: level.source }));
    }
    if (quantity && notify && reaches(quantity, code, notify)) {
      const params = {
        what,
        value: { quantity },
        limit: { quantity: { value: notify.value, unit, code } },
        steps: lastStep(quantity, code, unit, notify, step),
      };
      findings.push(finding('clinical.dose-notify', path, params, { basis: notify.source }));
    }
    const sum = totals.find(total => total.field === field)?.sum;
    const together = !alone && level !== undefined && sum?.gte(level.value) === true;
    if (together) {
      const params = {
        what: message('dose.together', { what }),
        value: { quantity: { value: sum?.toString() ?? '', unit, code } },
        limit: { quantity: { value: level.value, unit, code } },
      };
      findings.push(
        finding('clinical.dose-substantial', 'radiation.earlier', params, { basis: level.source }),
      );
    }
    substantial ||= alone === true || together;
  }
  return { findings: [...findings, ...local(kind, given, limits)], substantial };
}

/** `, and the step at 5 Gy`: the last of the further steps that was reached; empty when none was. */
function lastStep(
  quantity: Quantity,
  code: string,
  unit: string,
  notify: Limit,
  step: Limit | undefined,
): Param {
  const above = step && convert(quantity, code)?.minus(notify.value);
  if (!step || !above || Number(step.value) === 0) return '';
  const steps = above.div(step.value).floor();
  if (steps.lt(1)) return '';
  const value = steps.times(step.value).plus(notify.value).toString();
  return message('dose.step', { step: { quantity: { value, unit, code } } });
}

function local(kind: string, given: Radiation, limits: ClinicalLimits['radiation']): Finding[] {
  const level = byCaseKind(limits.local, kind);
  const quantity = given.kermaAreaProduct;
  if (!level || !quantity || beyond(quantity, 'Gy.cm2', 'over', level.value) !== true) return [];
  const params = {
    value: { quantity },
    limit: { quantity: { value: level.value, unit: 'Gy·cm²', code: 'Gy.cm2' } },
    kind,
  };
  return [
    finding('clinical.dose-local', 'radiation.kermaAreaProduct', params, {
      basis: `local reference level: ${level.source}`,
    }),
  ];
}
