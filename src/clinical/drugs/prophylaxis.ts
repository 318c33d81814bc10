import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { drugKey } from '../../trade/drugs/table.js';
import { firstAccess, lastEvent, spanText } from '../access.js';
import {
  assessed,
  type Calculation,
  type CalculationBase,
  inputOf,
  notAssessed,
  source,
} from '../calculation.js';
import type { ClinicalLimits } from '../limits.js';
import { byDrugName, plainName } from '../look-up.js';
import { drugNamed } from '../named.js';
import { byDrug, type Given } from './given.js';

/** Each drug of prophylaxis: given before access and not too long before, and again where the case lasted. */
export function prophylaxis(
  record: CaseRecord,
  given: readonly Given[],
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const access = firstAccess(record);
  const used = given.filter(({ drug }) => drug.for === 'prophylaxis');
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const group of byDrug(used, drug => drugKey(drug.drug.text))) {
    const doses = [...group].sort((a, b) => a.drug.at.epoch - b.drug.at.epoch);
    const [first] = doses;
    if (!first) continue;
    const name = first.drug.drug.text;
    const limit = byDrugName(limits.prophylaxisWindow, name)?.entry ?? limits.prophylaxisWithin;
    const base: CalculationBase = {
      key: `prophylaxis/${plainName(name)}`,
      group: 'drugs',
      what: message('calculation.prophylaxis', { drug: drugNamed(name) }),
      rule: message('rule.prophylaxis'),
      basis: limit
        ? message('basis.minutes', { limit: { number: limit.value }, source: source(limit.source) })
        : message('basis.no-limit'),
    };
    const inputs = doses.map(({ drug, path }) =>
      inputOf(message('input.dose', { dose: { quantity: drug.dose } }), drug.at.clock, `${path}.at`),
    );
    if (!access) {
      calculations.push(notAssessed(base, message('why.no-access'), inputs));
      continue;
    }
    inputs.push(inputOf(message('input.first-access'), access.clock, 'events'));
    const before = doses.filter(({ drug }) => drug.at.epoch <= access.epoch).at(-1);
    if (!before) {
      calculations.push(notAssessed(base, message('why.after-access'), inputs));
      findings.push(
        finding('clinical.prophylaxis-late', `${first.path}.at`, {
          drug: name,
          time: first.drug.at.clock,
          access: access.clock,
        }),
      );
    } else {
      const minutes = Math.round((access.epoch - before.drug.at.epoch) / 60_000);
      const quantity = { value: String(minutes), unit: 'min', code: 'min' };
      calculations.push(assessed(base, quantity, inputs, message('result.before', { amount: { quantity } })));
      if (limit && minutes > Number(limit.value))
        findings.push(
          finding(
            'clinical.prophylaxis-early',
            `${before.path}.at`,
            { drug: name, minutes: String(minutes), limit: { number: limit.value } },
            { basis: limit.source },
          ),
        );
    }
    findings.push(...redose(record, doses, limits));
  }
  return { calculations, findings };
}

/** A gap between two doses, or from the last dose to the end, that is longer than the interval of the table. */
function redose(record: CaseRecord, doses: readonly Given[], limits: ClinicalLimits['drugs']): Finding[] {
  const end = record.case.ended ?? lastEvent(record);
  const name = doses[0]?.drug.drug.text ?? '';
  const interval = byDrugName(limits.redose, name)?.entry;
  if (!interval || !end) return [];
  const hours = Number(interval.value);
  for (const [place, dose] of doses.entries()) {
    const next = doses[place + 1]?.drug.at ?? end;
    const until = Math.min(next.epoch, end.epoch);
    const gap = (until - dose.drug.at.epoch) / 3_600_000;
    if (gap > hours) {
      const params = {
        drug: name,
        time: dose.drug.at.clock,
        span: spanText(Math.floor(gap * 60)),
        limit: interval.value,
      };
      return [finding('clinical.prophylaxis-redose', `${dose.path}.at`, params, { basis: interval.source })];
    }
  }
  return [];
}
