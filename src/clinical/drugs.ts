import { type Finding, finding } from '../findings/finding.js';
import { convert, printQuantity } from '../record/quantity.js';
import type { CaseRecord, DrugGiven } from '../record/schema/record.js';
import type { Moment } from '../record/time.js';
import { type Calculation, type Input, notAssessed } from './calculation.js';
import type { ClinicalLimits, Limit } from './limits.js';

interface Given {
  readonly drug: DrugGiven;
  readonly path: string;
}

/** Totals of what was given, and its times and doses against the tables of the site. */
export function assessDrugs(
  record: CaseRecord,
  limits: ClinicalLimits['drugs'],
): { calculations: Calculation[]; findings: Finding[] } {
  const given = (record.drugs === 'none' ? [] : (record.drugs ?? [])).map(
    (drug, index): Given => ({ drug, path: `drugs[${index}]` }),
  );
  const access = firstAccess(record);
  const local = localAnaesthetic(record, given, limits);
  return {
    calculations: [...totals(given), ...local.calculations],
    findings: [
      ...local.findings,
      ...prophylaxis(given, access, limits),
      ...holds(record, access, limits),
      ...fasting(record, limits),
      ...allergies(record, given),
    ],
  };
}

/** The first event by which anything enters the patient. */
export function firstAccess(record: CaseRecord): Moment | undefined {
  return (record.events ?? [])
    .filter(event => event.do === 'puncture' || event.do === 'insert' || event.do === 'exchange')
    .map(event => event.at)
    .sort((a, b) => a.epoch - b.epoch)[0];
}

/** One total for each drug and unit of sedation, analgesia and reversal. */
function totals(given: readonly Given[]): Calculation[] {
  const groups = new Map<string, Given[]>();
  for (const one of given) {
    const purpose = one.drug.for;
    if (purpose !== 'sedation' && purpose !== 'analgesia' && purpose !== 'reversal') continue;
    const key = `${one.drug.drug.text} (${purpose}) ${one.drug.dose.code}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group): Calculation[] => {
    const first = group[0]?.drug;
    if (!first) return [];
    const base = {
      key: `total/${first.drug.text.toLowerCase()}/${first.for}`,
      group: 'drugs',
      what: `${first.drug.text}, total for ${first.for}`,
      rule: 'sum',
      basis: 'arithmetic',
    } as const;
    const inputs = group.map(
      ({ drug, path }): Input => ({
        name: drug.at.clock,
        value: printQuantity(drug.dose),
        path: `${path}.dose`,
      }),
    );
    const values = group.map(({ drug }) => convert(drug.dose, first.dose.code));
    const sum = values.reduce((a, b) => (a && b ? a.plus(b) : undefined));
    if (!sum) return [notAssessed(base, 'the doses cannot be added', inputs)];
    const value = sum.toString();
    return [
      {
        ...base,
        inputs,
        result: { text: `${value} ${first.dose.unit}`, quantity: { ...first.dose, value } },
      },
    ];
  });
}

/** mg of a dose: as written, or volume times strength in percent (1 % = 10 mg/mL). */
function milligrams(drug: DrugGiven): number | undefined {
  const mass = convert(drug.dose, 'mg');
  if (mass) return mass.toNumber();
  const grams = convert(drug.dose, 'g');
  if (grams) return grams.toNumber() * 1000;
  const ml = convert(drug.dose, 'mL');
  const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(drug.strength ?? '');
  const perMl = /^(\d+(?:\.\d+)?)\s*mg\/mL$/i.exec(drug.strength ?? '');
  if (!ml) return undefined;
  if (percent)
    return ml
      .times(percent[1] ?? 0)
      .times(10)
      .toNumber();
  return perMl ? ml.times(perMl[1] ?? 0).toNumber() : undefined;
}

function localAnaesthetic(record: CaseRecord, given: readonly Given[], limits: ClinicalLimits['drugs']) {
  const used = given.filter(one => one.drug.for === 'local anaesthesia');
  const weight = record.patient.weight && convert(record.patient.weight, 'kg')?.toNumber();
  const calculations: Calculation[] = [];
  const findings: Finding[] = [];
  for (const name of new Set(used.map(one => one.drug.drug.text.toLowerCase()))) {
    const of = used.filter(one => one.drug.drug.text.toLowerCase() === name);
    const base = {
      key: `local-anaesthetic/${name}`,
      group: 'drugs',
      what: `${of[0]?.drug.drug.text ?? name} by weight`,
      rule: 'mg ÷ kg; 1 % is 10 mg/mL',
      basis: 'arithmetic',
    } as const;
    const inputs: Input[] = of.map(({ drug, path }) => ({
      name: drug.at.clock,
      value: `${printQuantity(drug.dose)}${drug.strength ? ` of ${drug.strength}` : ''}`,
      path,
    }));
    if (!weight || !record.patient.weight) {
      calculations.push(notAssessed(base, 'the weight is not recorded', inputs));
      continue;
    }
    inputs.push({ name: 'Weight', value: printQuantity(record.patient.weight), path: 'patient.weight' });
    const doses = of.map(({ drug }) => milligrams(drug));
    if (doses.some(dose => dose === undefined)) {
      calculations.push(notAssessed(base, 'a dose has no mass: give its strength, such as 1 %', inputs));
      continue;
    }
    const total = doses.reduce((a: number, b) => a + (b ?? 0), 0);
    const perKg = (total / weight).toFixed(2);
    calculations.push({
      ...base,
      inputs,
      result: {
        text: `${perKg} mg/kg (${total} mg)`,
        quantity: { value: perKg, unit: 'mg/kg', code: 'mg/kg' },
      },
    });
    const limit = limits.localAnaesthetic[name];
    if (limit && total / weight > Number(limit.value))
      findings.push(
        finding(
          'clinical.local-anaesthetic',
          of[0]?.path ?? 'drugs',
          { drug: name, dose: String(total), perKg, limit: limit.value },
          { basis: limit.source },
        ),
      );
  }
  return { calculations, findings };
}

const minutesBetween = (a: Moment, b: Moment) => Math.round((b.epoch - a.epoch) / 60_000);

function prophylaxis(
  given: readonly Given[],
  access: Moment | undefined,
  limits: ClinicalLimits['drugs'],
): Finding[] {
  if (!access) return [];
  return given.flatMap(({ drug, path }): Finding[] => {
    if (drug.for !== 'prophylaxis') return [];
    const before = minutesBetween(drug.at, access);
    if (before < 0)
      return [
        finding('clinical.prophylaxis-late', `${path}.at`, {
          drug: drug.drug.text,
          time: drug.at.clock,
          access: access.clock,
        }),
      ];
    const limit = limits.prophylaxisWithin;
    return limit && before > Number(limit.value)
      ? [
          finding(
            'clinical.prophylaxis-early',
            `${path}.at`,
            { drug: drug.drug.text, minutes: String(before), limit: limit.value },
            { basis: limit.source },
          ),
        ]
      : [];
  });
}

/** Last doses of drugs that affect bleeding against the hold table. A day without a time counts from its end. */
function holds(record: CaseRecord, access: Moment | undefined, limits: ClinicalLimits['drugs']): Finding[] {
  const start = access ?? record.case.started;
  const list = record.before?.anticoagulants;
  if (!start || !list || list === 'none') return [];
  return list.flatMap((entry, index): Finding[] => {
    const path = `before.anticoagulants[${index}]`;
    const limit: Limit | undefined = limits.hold[entry.drug.text.toLowerCase()];
    if (!entry.lastDose) return [finding('clinical.hold-unknown', path, { drug: entry.drug.text })];
    if (!limit || !entry.lastDose.moment) return [];
    const hours = (start.epoch - entry.lastDose.moment.epoch) / 3_600_000;
    return hours < Number(limit.value)
      ? [
          finding(
            'clinical.hold-short',
            `${path}.lastDose`,
            { drug: entry.drug.text, hours: hours.toFixed(1), limit: limit.value },
            { basis: limit.source },
          ),
        ]
      : [];
  });
}

function fasting(record: CaseRecord, limits: ClinicalLimits['drugs']): Finding[] {
  const sedation = record.sedation;
  const eaten = record.before?.fasting;
  if (
    !sedation ||
    sedation === 'none' ||
    sedation.kind === 'local anaesthesia only' ||
    !sedation.start ||
    !eaten
  )
    return [];
  const start = sedation.start;
  const checks = [
    { what: 'Food was taken', last: eaten.food, limit: limits.fastingFood, path: 'before.fasting.food' },
    {
      what: 'Clear fluids were taken',
      last: eaten.clearFluids,
      limit: limits.fastingFluids,
      path: 'before.fasting.clearFluids',
    },
  ];
  return checks.flatMap(({ what, last, limit, path }): Finding[] => {
    if (!limit || !last?.moment) return [];
    const hours = (start.epoch - last.moment.epoch) / 3_600_000;
    return hours < Number(limit.value)
      ? [
          finding(
            'clinical.fasting',
            path,
            { what, hours: hours.toFixed(1), limit: limit.value },
            { basis: limit.source },
          ),
        ]
      : [];
  });
}

/** Whole words of an allergy found in the name of what was given, contrast included. */
function allergies(record: CaseRecord, given: readonly Given[]): Finding[] {
  const list = record.before?.allergies;
  if (!list || list === 'none') return [];
  const things = [
    ...given.map(({ drug, path }) => ({ name: drug.drug.text, path, contrast: false })),
    ...(record.contrast === 'none' ? [] : (record.contrast ?? [])).map((c, index) => ({
      name: c.agent.text,
      path: `contrast[${index}]`,
      contrast: true,
    })),
  ];
  return list.flatMap(({ to }) => {
    const word = to.text.toLowerCase();
    return things
      .filter(
        thing =>
          sameSubstance(word, thing.name.toLowerCase()) ||
          (thing.contrast && /\b(?:iodinated |iodine )?contrast\b/.test(word)),
      )
      .map(thing => finding('clinical.allergy-given', thing.path, { given: thing.name, allergy: to.text }));
  });
}

function sameSubstance(allergy: string, given: string): boolean {
  const words = (text: string) => text.split(/[^\p{L}\p{N}]+/u).filter(word => word.length > 3);
  return words(given).some(word => words(allergy).includes(word));
}
