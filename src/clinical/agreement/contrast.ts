import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import { convert } from '../../record/quantity.js';
import type { CaseEvent, CaseRecord, ContrastGiven } from '../../record/schema/record.js';
import { drugKey, drugsIn, elementOf } from '../../trade/drugs/table.js';

interface Injection {
  readonly event: CaseEvent;
  readonly path: string;
  readonly agent: string;
}

const media = new Set(['iodinated contrast', 'gadolinium contrast']);

/** True for media that X-rays show; gas, saline and microbubbles are none. */
export const isMedium = (agent: string): boolean =>
  drugsIn(agent).some(({ families }) => families.some(family => media.has(family)));

/** Injections of contrast that the events tell of. */
export function injectionsOf(record: CaseRecord): readonly Injection[] {
  return (record.events ?? []).flatMap((event, i) =>
    event.do === 'inject' && event.agent !== undefined && isMedium(event.agent)
      ? [{ event, path: `events[${i}]`, agent: event.agent }]
      : [],
  );
}

/** Contrast by the events against contrast in total. Hand injections are seldom all recorded, so that the total may be more. */
export function checkContrast(record: CaseRecord): Finding[] {
  const injections = injectionsOf(record);
  // An injection of which nobody says what may have been contrast too.
  const nameless = (record.events ?? []).some(
    ({ do: verb, agent }) => verb === 'inject' && agent === undefined,
  );
  const [first] = injections;
  const list = entriesOf(record.contrast);
  if (list.length === 0)
    return first && (record.contrast === 'none' || record.case.status !== 'not done')
      ? [
          finding('clinical.contrast-differs', 'contrast', {
            total: message('contrast.none'),
            events: first.agent,
            place: first.path,
          }),
        ]
      : [];
  return [
    ...otherAgents(list, injections),
    ...volumes(list, injections, nameless),
    ...routes(record, list, injections),
  ];
}

/** A general name ('iodinated contrast') is every one of its family. */
function same(a: string, b: string): boolean {
  const general = (text: string) => drugsIn(text).some(({ name }) => media.has(name));
  return drugKey(a) === drugKey(b) || ((general(a) || general(b)) && elementOf(a) === elementOf(b));
}

function otherAgents(list: readonly ContrastGiven[], injections: readonly Injection[]): Finding[] {
  const other = injections.find(({ agent }) => !list.some(given => same(given.agent.text, agent)));
  if (!other) return [];
  return [
    finding('clinical.contrast-differs', `${other.path}.agent`, {
      total: { list: list.map(({ agent }) => agent.text) },
      events: other.agent,
      place: other.path,
    }),
  ];
}

const mL = (volume: ContrastGiven['volume'] | undefined) => volume && convert(volume, 'mL');

function volumes(
  list: readonly ContrastGiven[],
  injections: readonly Injection[],
  nameless: boolean,
): Finding[] {
  return list.flatMap((given, i) => {
    if (list.findIndex(one => same(one.agent.text, given.agent.text)) !== i || !isMedium(given.agent.text))
      return [];
    const mine = injections.filter(({ agent }) => same(given.agent.text, agent));
    const parts = mine.map(({ event }) => mL(event.volume));
    const known = parts.flatMap(part => part ?? []);
    if (known.length === 0) return [];
    const injected = known.reduce((sum, part) => sum.plus(part), new Decimal(0));
    const total = list
      .filter(one => same(one.agent.text, given.agent.text))
      .reduce((sum, one) => sum.plus(mL(one.volume) ?? 0), new Decimal(0));
    const more = injected.gt(total.times('1.02').plus('0.5'));
    const all = known.length === parts.length && !nameless;
    const slipped = all && ['10', '100', '1000'].some(times => total.eq(injected.times(times)));
    const threefold =
      known.length === parts.length && total.gt(injected.times(3)) && total.gt(injected.plus(50));
    const twofold = all && known.length > 1 && total.gte(injected.times(2)) && total.gte(injected.plus(15));
    const far = threefold || twofold;
    if (!more && !far && !slipped) return [];
    return [
      finding('clinical.contrast-differs', `contrast[${i}].volume`, {
        total: { quantity: { value: total.toString(), unit: 'mL', code: 'mL' } },
        events: { quantity: { value: injected.toString(), unit: 'mL', code: 'mL' } },
        place: mine[0]?.path ?? 'events',
      }),
    ];
  });
}

const artery = /\b(?:arter(?:y|ies|ial)|aort(?:a|ic)|carotid|coeliac|celiac|trunk|M[12]|iliac limb)\b/i;
const vein = /\b(?:veins?|venous|cava|caval|jugular|sinus|atrium|atrial|ventricle)\b/i;
/** The blood of the lungs and of a dialysis circuit is called either. */
const either = /\b(?:pulmonary|lungs?|graft|fistula|circuit|lobe artery|shunt)\b/i;

/** Only arteries, or only veins, were entered, and the route is the other. */
function routes(
  record: CaseRecord,
  list: readonly ContrastGiven[],
  injections: readonly Injection[],
): Finding[] {
  if (injections.length === 0 || list.length !== 1) return [];
  const entered = [
    ...(record.access ?? []).map(({ site }) => site.text),
    ...(record.events ?? []).flatMap(({ into }) => into?.text ?? []),
    ...Object.values(record.targets ?? {}).map(({ what }) => what.text),
  ];
  const [ofArtery, ofVein] = [entered.some(text => artery.test(text)), entered.some(text => vein.test(text))];
  if (ofArtery === ofVein || entered.some(text => either.test(text))) return [];
  const wrong = ofArtery ? 'intravenous' : 'intra-arterial';
  return list.flatMap(({ route }, i) =>
    route === wrong
      ? [
          finding('clinical.contrast-route-differs', `contrast[${i}].route`, {
            route: { term: 'route', value: route },
            entered: entered[0] ?? '',
          }),
        ]
      : [],
  );
}
