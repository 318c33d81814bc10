import { type DeviceDetails, type DeviceTally, isOpen } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message, type Param } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import type { CaseRecord, Target } from '../../record/schema/record.js';
import { caseKindNamed } from '../../trade/cases/table.js';
import {
  type Calculation,
  type CalculationBase,
  inputOf,
  notAssessed,
  source,
  told,
} from '../calculation.js';
import type { ClinicalLimits } from '../limits.js';
import { placeNamed } from '../named.js';

interface Question {
  readonly record: CaseRecord;
  readonly key: string;
  readonly target: Target;
  /** Per cent of narrowing left, written or worked out. */
  readonly residual: number | undefined;
  readonly limits: ClinicalLimits['outcome'];
  readonly devices: ReadonlyMap<string, DeviceDetails>;
  readonly tally: DeviceTally | undefined;
}

/** One recorded fact, and whether it speaks for success; absent where it is only told. */
interface Fact {
  readonly name: Param;
  readonly value: Param;
  readonly path: string;
  readonly good?: boolean;
  /** True when it is enough to speak of success by itself, as crossing alone is not. */
  readonly strong?: boolean;
  /** Why it speaks against, as the end of a sentence. */
  readonly against?: Message;
}

/**
 * Technical success of a target from what was recorded: crossing, narrowing left, flow, and what became of the device
 * that was put across it. Any fact against makes it unsuccessful; crossing and free flow alone do not make it
 * successful, and what a person recorded as unsuccessful is never called successful.
 */
export function technicalSuccess(question: Question): { calculations: Calculation[]; findings: Finding[] } {
  const { key, target, limits } = question;
  const facts = [
    ...crossing(question),
    ...residualOf(question),
    ...flowOf(question),
    ...placed(question),
    ...retrieved(question),
  ];
  if (facts.length === 0) return { calculations: [], findings: [] };
  const { residualNarrowing } = limits;
  const base: CalculationBase = {
    key: `technical-success/${key}`,
    group: 'outcome',
    what: message('calculation.technical-success', { target: placeNamed(target.what.text) }),
    rule: residualNarrowing
      ? message('rule.success-narrowing', { limit: { number: residualNarrowing.value } })
      : message('rule.success'),
    basis: source(residualNarrowing?.source),
  };
  const inputs = facts.map(({ name, value, path }) => inputOf(name, value, path));
  const against = facts.find(fact => fact.good === false);
  const written =
    target.success === 'unsuccessful'
      ? message('why.unsuccessful')
      : target.success === 'partially successful'
        ? message('why.partial')
        : undefined;
  if (!against && (written !== undefined || !facts.some(fact => fact.good && fact.strong)))
    return { calculations: [notAssessed(base, written ?? message('why.undecided'), inputs)], findings: [] };
  const why = against && (against.against ?? against.value);
  const calculation = told(
    base,
    why === undefined ? message('result.successful') : message('result.not-successful', { why }),
    inputs,
  );
  const findings =
    why !== undefined && target.success === 'successful'
      ? [
          finding(
            'clinical.success-differs',
            `targets.${key}.success`,
            { target: target.what.text, written: { term: 'success', value: target.success }, why },
            { basis: say(calculation.basis) },
          ),
        ]
      : [];
  return { calculations: [calculation], findings };
}

function crossing({ record, key }: Question): Fact[] {
  const tries = (record.events ?? []).flatMap((event, index) =>
    (event.target === key || event.across === key) && event.crossed !== undefined
      ? [{ crossed: event.crossed, path: `events[${index}].crossed` }]
      : [],
  );
  const hit = tries.find(one => one.crossed);
  const last = tries.at(-1);
  if (hit) return [{ name: message('input.crossed'), value: message('value.yes'), path: hit.path }];
  return last
    ? [
        {
          name: message('input.crossed'),
          value: message('value.no'),
          path: last.path,
          good: false,
          against: message('against.not-crossed'),
        },
      ]
    : [];
}

function residualOf({ key, target, residual, limits }: Question): Fact[] {
  if (residual === undefined || residual > 100) return [];
  const path = `targets.${key}.${target.narrowingAfter ? 'narrowingAfter' : 'lumenAfter'}`;
  const limit = limits.residualNarrowing;
  const quantity = { value: String(Number(residual.toFixed(1))), unit: '%', code: '%' };
  const fact = { name: message('input.narrowing-left'), value: { quantity, spaced: true }, path } as const;
  if (!limit) return [fact];
  const good = residual <= Number(limit.value);
  return [
    {
      ...fact,
      good,
      strong: true,
      against: message('against.narrowing', { value: fact.value, limit: { number: limit.value } }),
    },
  ];
}

/** Agents that are injected to close. Common practice, no source. */
const closing =
  /\b(?:sclero\w*|tetradecyl|polidocanol|foam|ethanol|alcohol|bleomycin|doxycycline|glue|cyanoacrylate|particles?|microspheres?|gelatin\w*|thrombin)\b/i;

/** Flow is wanted after opening, and none after closing: a target that an embolic device went to was to be closed. */
function flowOf({ record, key, target, devices }: Question): Fact[] {
  if (!target.flowAfter) return [];
  const closed = (record.events ?? []).some(
    event =>
      (event.target === key || event.across === key) &&
      ((event.device !== undefined && devices.get(event.device)?.family === 'embolic') ||
        closing.test(event.agent ?? '')),
  );
  const path = `targets.${key}.flowAfter`;
  const fact = {
    name: message('input.flow-after'),
    value: { term: 'flow', value: target.flowAfter },
    path,
  } as const;
  // Slow flow is wanted by neither and refused by neither.
  if (target.flowAfter === 'slow') return [fact];
  const good = closed ? target.flowAfter === 'none' : target.flowAfter !== 'none';
  // Flow says something where it changed; a lumen that was open before proves nothing.
  const strong = closed || target.flowBefore === 'none' || target.flowBefore === 'slow';
  return [{ ...fact, good, strong, against: message(closed ? 'against.flow' : 'against.no-flow') }];
}

/** Implants that were put across the target, and where they are now. */
function placed({ record, key, devices, tally }: Question): Fact[] {
  const keys = new Set(
    (record.events ?? [])
      .filter(
        event =>
          (event.do === 'deploy' || event.do === 'insert' || event.do === 'exchange') &&
          (event.target === key || event.across === key),
      )
      .flatMap(({ device }) => (device !== undefined && devices.get(device)?.implant ? [device] : [])),
  );
  return (tally?.entries ?? [])
    .filter(entry => entry.part === undefined && keys.has(entry.device))
    .map((entry): Fact => {
      const { name } = entry;
      const value = { term: 'state', value: entry.state } as const;
      const fact = { name, value, path: `devices.${entry.device}` };
      if (entry.state === 'in situ intended' || entry.state === 'in situ temporary')
        return { ...fact, good: true, strong: true };
      // One that came out again may have been replaced by another, and one that is not accounted for is not known to be
      // lost: both are told, and not held against the target.
      return entry.state === 'retained unintended'
        ? { ...fact, good: false, against: message('against.state', { device: name, state: value }) }
        : fact;
    });
}

/** Devices of an earlier case that were to be taken out here, and whether they came out whole. */
function retrieved({ record, key, tally }: Question): Fact[] {
  const caught = (record.events ?? [])
    .filter(event => (event.do === 'capture' || event.do === 'retrieve') && event.target === key)
    .flatMap(({ device, with: more }) => [device, ...(more ?? [])]);
  const all = (caseKindNamed(record.case.kind)?.rows ?? []).some(row => row.removes);
  return (tally?.entries ?? [])
    .filter(({ device, part, carried }) => part === undefined && carried && (all || caught.includes(device)))
    .map(({ device, name, state }): Fact => {
      const value = { term: 'state', value: state } as const;
      const fact = { name, value, path: `devices.${device}` };
      if (isOpen(state)) return fact;
      const good = state === 'removed intact' || state === 'removed in pieces, complete';
      return {
        ...fact,
        good,
        strong: true,
        against: message('against.state', { device: name, state: value }),
      };
    });
}
