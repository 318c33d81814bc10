import { entriesOf } from '../../record/entries.js';
import type { CaseRecord, DrugGiven } from '../../record/schema/record.js';
import { type Drug, drugsIn } from '../../trade/drugs/table.js';
import { reactionOf, tellsReaction } from '../../trade/reactions.js';

/** What a time has to do with another one: an answer comes after its cause. */
export interface Cause {
  readonly role: 'cause' | 'answer' | 'through' | 'localFirst';
  /** Only points of the same link are compared. */
  readonly link?: string;
}

/** Families, or names, that a reversal undoes. Common practice, no source. */
const reversals: readonly { readonly drug: string; readonly undoes: (drug: Drug) => boolean }[] = [
  { drug: 'protamine', undoes: ({ families }) => families.includes('heparin') },
  { drug: 'flumazenil', undoes: ({ families }) => families.includes('benzodiazepine') },
  { drug: 'naloxone', undoes: ({ families }) => families.includes('opioid') },
  { drug: 'sugammadex', undoes: ({ families }) => families.includes('muscle relaxant') },
  { drug: 'neostigmine', undoes: ({ families }) => families.includes('muscle relaxant') },
];

/** Purposes for which a drug that an event injects is the one that was given, even where its route is a vein. */
const putIn: ReadonlySet<string> = new Set([
  'thrombolysis',
  'vasodilatation',
  'haemostasis',
  'spasm',
  'other',
]);

const intoDevice: ReadonlySet<DrugGiven['route']> = new Set(['intra-arterial', 'into the tract']);

/** What each drug of the case must come after, by its place in `drugs`. */
export function causesOf(record: CaseRecord): readonly (readonly Cause[])[] {
  const drugs = entriesOf(record.drugs);
  const injected = new Set(
    (record.events ?? []).flatMap(({ do: verb, agent }) =>
      verb === 'inject' && agent !== undefined ? drugsIn(agent).map(({ name }) => name) : [],
    ),
  );
  const said = new Set<string>();
  const epochs = drugs.map(({ at }) => at.epoch);
  const isFirst = (i: number, same: (other: DrugGiven) => boolean) =>
    drugs.every((other, j) => j === i || !same(other) || (epochs[j] ?? 0) >= (epochs[i] ?? 0));
  return drugs.map((given, i): Cause[] => {
    const named = drugsIn(given.drug.text);
    const causes: Cause[] = [];
    for (const { drug, undoes } of reversals) {
      if (named.some(({ name }) => name === drug)) causes.push({ role: 'answer', link: drug });
      const undone = (other: DrugGiven) =>
        other.for !== 'premedication' && drugsIn(other.drug.text).some(undoes);
      if (undone(given) && isFirst(i, undone) && !said.has(drug)) {
        said.add(drug);
        causes.push({ role: 'cause', link: drug });
      }
    }
    if (given.for === 'allergic reaction') causes.push({ role: 'answer', link: 'reaction' });
    if (given.reaction === true) causes.push({ role: 'cause', link: 'reaction' });
    // What an event injects by a device, or what goes into an artery or tract, cannot go before the way in.
    const byDevice =
      named.some(({ name }) => injected.has(name)) && (given.for === undefined || putIn.has(given.for));
    if (intoDevice.has(given.route) || byDevice) causes.push({ role: 'through' });
    const isLocal = (other: DrugGiven) =>
      other.for === 'local anaesthesia' && other.route === 'local infiltration';
    if (isLocal(given) && isFirst(i, isLocal) && !asleep(record)) causes.push({ role: 'localFirst' });
    return causes;
  });
}

/** Under general anaesthesia a local anaesthetic at the end is for the pain afterwards. */
const asleep = ({ sedation }: CaseRecord) =>
  sedation !== undefined && sedation !== 'none' && /general|deep/.test(sedation.kind);

/** Where the record tells what a reaction was to, the first of it; else the reaction itself. */
export function reactionPlaces(record: CaseRecord): { contrast: number; complication: number } {
  const first = <T extends { readonly at?: { epoch: number } | undefined }>(
    list: readonly T[],
    is: (one: T) => boolean,
  ): number => {
    let found = -1;
    list.forEach((one, i) => {
      const epoch = one.at?.epoch;
      if (epoch !== undefined && is(one) && (found < 0 || epoch < (list[found]?.at?.epoch ?? epoch)))
        found = i;
    });
    return found;
  };
  const contrast = first(
    entriesOf(record.contrast),
    ({ reaction }) => reaction !== undefined && tellsReaction(reaction),
  );
  const marked = contrast >= 0 || entriesOf(record.drugs).some(({ reaction }) => reaction === true);
  const complications = entriesOf(record.complications).map(({ what, at }) => ({ what, at: at?.moment }));
  const complication = marked
    ? -1
    : first(complications, ({ what }) => reactionOf(what.text, what.codes) !== undefined);
  return { contrast, complication };
}
