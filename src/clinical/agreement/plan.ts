import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { comesOut } from '../../trade/removal.js';

/** Methods that exclude one another: what was planned with one and done with another was changed, or mistyped. */
const methods: readonly RegExp[] = [
  /\bcryo/i,
  /\bmicrowave/i,
  /\bradio-?frequency/i,
  /\blaser/i,
  /\belectroporat/i,
];
const forGood = /\b(?:for good|for life|permanent(?:ly)?|never comes out)\b/i;
const denied = /\b(?:no|not|never|if|until|unless)\b/i;

/** What was planned, and what is to become of what stays, against what was done and what is to be done. */
export function checkPlan(record: CaseRecord): Finding[] {
  return [...otherMethod(record), ...ends(record), ...calledPermanent(record)];
}

/** What a text plans or tells, and another place that rules it out. */
export const differs = (path: string, text: string, place: string, other: string): Finding =>
  finding('clinical.plan-differs', path, { text, place, other });

function otherMethod({ planned, case: head }: CaseRecord): Finding[] {
  const plan = planned?.text ?? '';
  const done = head.procedure?.text ?? head.kind;
  const there = methods.filter(method => method.test(`${head.kind} ${done}`));
  const meant = methods.filter(method => method.test(plan));
  return there.length === 0 || meant.length === 0 || meant.some(method => there.includes(method))
    ? []
    : [differs('planned', plan, head.procedure ? 'case.procedure' : 'case.kind', done)];
}

/** A device that stays for good and is called temporary, or is to be taken out. */
function ends(record: CaseRecord): Finding[] {
  return entriesOf(record.left).flatMap(({ device, purpose, until }, i) => {
    const end = until?.condition;
    if (end === undefined || !forGood.test(end) || denied.test(end)) return [];
    const place = `left[${i}].until`;
    return [
      ...(purpose === 'temporary' ? [differs(`left[${i}].purpose`, purpose, place, end)] : []),
      ...(record.aftercare ?? []).flatMap((item, j) =>
        item.device === device && comesOut(item.do)
          ? [differs(`aftercare[${j}].do`, item.do, place, end)]
          : [],
      ),
    ];
  });
}

/** A temporary device that the conclusion calls permanent. */
function calledPermanent({ left, devices, conclusion = '' }: CaseRecord): Finding[] {
  const called =
    /\bpermanent ((?:[\w-]+ ){0,2}[\w-]+)/i.exec(conclusion)?.[1]?.toLowerCase().split(' ') ?? [];
  const i = entriesOf(left).findIndex(({ device, purpose }) => {
    const noun = devices?.[device]?.kind.toLowerCase().split(' ').at(-1);
    return purpose === 'temporary' && noun !== undefined && called.includes(noun);
  });
  return i < 0 ? [] : [differs('conclusion', conclusion, `left[${i}].purpose`, 'temporary')];
}
