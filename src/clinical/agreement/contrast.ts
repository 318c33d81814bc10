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

const families = new Set(['iodinated contrast', 'gadolinium contrast']);

/** True for media that X-rays show; gas, saline and microbubbles are none. */
export const isMedium = (agent: string): boolean =>
  drugsIn(agent).some(({ families: own }) => own.some(family => families.has(family)));

/** Injections of contrast that the events tell of. */
export const injectionsOf = (record: CaseRecord): readonly Injection[] =>
  injections(record).filter(({ agent }) => isMedium(agent));

/** Everything that the events inject, where they say what. */
const injections = (record: CaseRecord): readonly Injection[] =>
  (record.events ?? []).flatMap((event, i) =>
    event.do === 'inject' && event.agent !== undefined
      ? [{ event, path: `events[${i}]`, agent: event.agent }]
      : [],
  );

/** `63` for `36`: the same digits in another order. */
function isTurned(total: Decimal, injected: Decimal): boolean {
  const [a, b] = [total.toString(), injected.toString()];
  return (
    a !== b &&
    a.length === b.length &&
    /^\d{2,}$/.test(a) &&
    [...a].sort().join('') === [...b].sort().join('')
  );
}

/** Contrast by the events against contrast in total. Hand injections are seldom all recorded, so that the total may be more. */
export function checkContrast(record: CaseRecord): Finding[] {
  const media = injectionsOf(record);
  // An injection of which nobody says what may have been contrast too.
  const nameless = (record.events ?? []).some(
    ({ do: verb, agent, device }) =>
      verb === 'inject' && agent === undefined && !isItself(record.devices?.[device ?? '']?.kind),
  );
  const [first] = media;
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
  return [...otherAgents(list, media), ...volumes(record, list, nameless), ...routes(record, list, media)];
}

/** Glue, spheres and cement are devices: what is injected with them is they themselves. */
const isItself = (kind: string | undefined) =>
  /\b(?:glue|\w*spheres?|particles?|embolics?|cement|beads?|foam|gelatine?|coils?|cyanoacrylate|sponge)\b/i.test(
    kind ?? '',
  );

/** A general name ('iodinated contrast') is every one of its family. */
function same(a: string, b: string): boolean {
  const general = (text: string) => drugsIn(text).some(({ name }) => families.has(name));
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

function volumes(record: CaseRecord, list: readonly ContrastGiven[], nameless: boolean): Finding[] {
  const every = injections(record);
  return list.flatMap((given, i) => {
    if (list.findIndex(one => same(one.agent.text, given.agent.text)) !== i) return [];
    const mine = every.filter(({ agent }) => same(given.agent.text, agent));
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
    // Of gas and oil nobody gives a little by hand beside what is recorded.
    const doubled = all && !isMedium(given.agent.text) && total.gte(injected.times(2));
    const far = threefold || twofold || doubled || (all && isTurned(total, injected));
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
/** What has no blood in it. */
const cavity =
  /\b(?:abscess|collection|cavity|cyst|\w*cele|seroma|biloma|urinoma|bile duct|biliary|ducts?|ureters?|calyx|calyces|kidney pelvis|renal pelvis|bladder|stomach|caecum|cecum|colon|bowel|jejunum|duodenum|rectum|oesophagus|esophagus|joint|shoulder|hip joint|epidural|disc|pleura\w*|fallopian|uterus|uterine cavity|gallbladder)\b/i;
/** Any word of a vessel, under other names too. */
const anyVessel =
  /\b(?:arter\w+|vein\w*|venous|aort\w+|cava\w*|jugular|femoral|radial|brachial|carotid|subclavian|iliac|portal|vessel\w*|sinus|atri\w+|ventric\w+|groin|wrist|tips|varic\w+)\b/i;

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
  const bloodless = entered.some(text => cavity.test(text)) && !entered.some(text => anyVessel.test(text));
  if (!bloodless && (ofArtery === ofVein || entered.some(text => either.test(text)))) return [];
  const wrong: readonly unknown[] = bloodless
    ? ['intravenous', 'intra-arterial']
    : [ofArtery ? 'intravenous' : 'intra-arterial'];
  return list.flatMap(({ route }, i) =>
    wrong.includes(route)
      ? [
          finding('clinical.contrast-route-differs', `contrast[${i}].route`, {
            route: { term: 'route', value: route },
            entered: entered[0] ?? '',
          }),
        ]
      : [],
  );
}
