import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { bodyPartsIn } from '../../trade/body.js';
import { comesOut } from '../../trade/removal.js';
import { type Told, toldAfter, toldToReaders } from '../texts.js';

/** Anaesthesia, ways in and complications in words, against what the record lists of them. */
export function checkCourseWords(record: CaseRecord): Finding[] {
  return [...anaesthesia(record), ...waysIn(record), ...careOfUnlisted(record)];
}

const general =
  /\b(?:general an(?:a)?esthe\w+|under GA|(?:in|after) GA|extubat\w+|intubat\w+ (?:for|throughout))\b/i;
const aside =
  /\b(?:no|not|never|without|if|previous\w*|earlier|next time|instead of|convert\w*|unless|before|may|might|plan\w*|emergency|re-?intubated)\b/i;

function anaesthesia({ sedation, outcome, conclusion }: CaseRecord): Finding[] {
  if (sedation === undefined) return [];
  const kinds = sedation === 'none' ? [] : [sedation.kind, ...(sedation.changes ?? []).map(({ to }) => to)];
  if (kinds.includes('general anaesthesia')) return [];
  const told = (
    [
      ['outcome.text', outcome?.text],
      ['outcome.condition', outcome?.condition],
      ['conclusion', conclusion],
    ] as const
  ).find(([, text]) => (text ?? '').split(/[.;]\s|;|,\s/).some(one => general.test(one) && !aside.test(one)));
  if (!told) return [];
  const kind = sedation === 'none' ? 'none' : sedation.kind;
  const what = message('sedation.told', { text: told[1] ?? '', kind: message(`sedation.${kind}`) });
  return [finding('clinical.sedation-differs', told[0], { what })];
}

const limbs: readonly { readonly words: RegExp; readonly regions: readonly string[] }[] = [
  { words: /\b(?:groins?|femoral (?:access|puncture|sheath|closure|site))\b/i, regions: ['leg'] },
  { words: /\b(?:wrist band|wrist|radial (?:access|puncture|sheath|band|site))\b/i, regions: ['arm'] },
];

/** The groin is told to be soft, and the wrist was entered. */
function waysIn(record: CaseRecord): Finding[] {
  const access = record.access ?? [];
  const entered = new Set(access.flatMap(({ site }) => bodyPartsIn(site.text).map(({ region }) => region)));
  const targets = new Set(
    Object.values(record.targets ?? {}).flatMap(({ what }) =>
      bodyPartsIn(what.text).map(({ region }) => region),
    ),
  );
  if (![...entered].some(region => region === 'leg' || region === 'arm')) return [];
  const advice = toldToReaders(record).filter(({ path }) => !/\bother\b/i.test(path));
  return [...toldAfter(record), ...advice]
    .flatMap(({ path, text }) =>
      text.split(/[.;,]\s|;/).flatMap(clause => {
        const limb = limbs.find(({ words }) => words.test(clause));
        const known = limb?.regions.some(region => entered.has(region) || targets.has(region)) ?? true;
        if (
          known ||
          /\b(?:no|not|old|hernia|pain in|scar|previous\w*|blood pressure|cannula|rash)\b/i.test(clause)
        )
          return [];
        return [
          finding('clinical.plan-differs', path, {
            text: clause,
            other: access[0]?.site.text ?? '',
            place: 'access[0].site',
          }),
        ];
      }),
    )
    .slice(0, 1);
}

/** Nouns of devices that texts speak of, with what in a record is one of them. Common practice, no source. */
const nouns: readonly { readonly says: RegExp; readonly is: RegExp }[] = [
  {
    says: /\bchest (?:drain|tube)\b|\bpleural (?:drain|catheter)\b|\bintercostal drain\b/i,
    is: /drain|chest tube|pleural|catheter|thoracostomy/i,
  },
  { says: /\bnephrostom(?:y|ies)\b/i, is: /nephro|pyelo|drain|ureter/i },
  {
    says: /\bstents?\b|\bstent-?grafts?\b/i,
    is: /stent|endoprosthesis|endograft|covered|scaffold|JJ|double-J|shunt|flow diverter/i,
  },
  { says: /\bcoils?\b/i, is: /coil/i },
  { says: /\b(?:caval |vena cava )?filter\b/i, is: /filter/i },
  { says: /\b(?:arterial |femoral |introducer |venous )?sheaths?\b/i, is: /sheath/i },
  { says: /\bports?\b(?! of)/i, is: /port/i },
  { says: /\bgastrostomy(?: tube)?\b|\bPEG\b|\bfeeding tube\b/i, is: /gastro|jejun|feeding|button|tube/i },
  { says: /\b(?:bladder|urinary|urethral) catheter\b/i, is: /bladder|urethral|urinary|suprapubic|foley/i },
  { says: /\bbiliary drain\b|\bcholecystostomy\b/i, is: /drain|biliary|cholecyst|catheter/i },
  { says: /\bballoons?\b/i, is: /balloon|stent|catheter|tube|sheath/i },
  { says: /\b(?:vascular )?plugs?\b/i, is: /plug|closure|occlu/i },
  { says: /\bdrains?\b/i, is: /drain|tube|catheter|shunt|nephrostomy|cholecystostomy/i },
  {
    says: /\b(?:PICC|central line|tunnelled line|dialysis (?:catheter|line))\b/i,
    is: /line|catheter|picc|port/i,
  },
];

const listedAs = (record: CaseRecord, is: RegExp, keys?: ReadonlySet<string>) =>
  Object.entries(record.devices ?? {}).some(
    ([key, { kind, description, parts, carried }]) =>
      (keys === undefined || keys.has(key) || carried !== undefined) &&
      (is.test(`${kind} ${description ?? ''}`) ||
        (keys === undefined && Object.values(parts ?? {}).some(part => is.test(part.kind)))),
  );

const cares =
  /\b(?:flush\w*|empty|unclamp\w*|clamp|aspirate from|deflate|unlock|cap|drain output|remove|pull|take (?:\w+ ){0,4}out|taken out|comes? out|withdraw|retrieve|exchange|change|cut)\b/i;
const notThere =
  /\b(?:no|not|if|when a|may|might|should|in case|unless|old|previous|other|need(?:s|ed)? a|has a|own|instead|for a|decide|consider|discuss|book|plan\w*|site|wound|dressing|fistula|after (?:the )?removal|was removed|were removed|has been|bag)\b/i;

/** Care or removal of a device that nothing in the record left behind. */
function careOfUnlisted(record: CaseRecord): Finding[] {
  const kept = new Set(entriesOf(record.left).map(({ device }) => device));
  const tasks: readonly (Told & { readonly device?: string | undefined })[] = toldToReaders(record).map(
    one => ({
      ...one,
      device: record.aftercare?.[Number(/^aftercare\[(\d+)\]/.exec(one.path)?.[1] ?? Number.NaN)]?.device,
    }),
  );
  const around = `${record.before?.observations ?? ''} ${(record.before?.conditions ?? []).map(({ text }) => text).join(' ')} ${record.indication.text}`;
  return tasks.flatMap(({ path, text, device }) => {
    if (device !== undefined) return [];
    return text
      .split(/[.;]\s|;/)
      .filter(clause => (cares.test(clause) || comesOut(clause)) && !notThere.test(clause))
      .flatMap(clause => {
        const sewn = /\b(?:sutures?|stitch(?:es)?)\b/i.test(clause);
        const noun = sewn ? undefined : nouns.find(({ says }) => says.test(clause));
        if (!noun || listedAs(record, noun.is, kept) || noun.says.test(around)) return [];
        return [
          finding(
            'clinical.aftercare-device-out',
            path,
            { task: clause, device: message('name.unlisted') },
            { remedy: message(path.endsWith('.do') ? 'answer.takeTaskOut' : 'answer.takeWordsOut') },
          ),
        ];
      })
      .slice(0, 1);
  });
}
