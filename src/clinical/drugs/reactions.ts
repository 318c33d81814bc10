import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { Coded } from '../../record/schema/fields.js';
import type { CaseRecord, Complication } from '../../record/schema/record.js';
import { allergenTable } from '../../trade/drugs/allergens.js';
import { drugKey, drugsIn } from '../../trade/drugs/table.js';
import { reactionOf, tellsReaction } from '../../trade/reactions.js';
import { wordsOf } from '../../trade/words.js';

/** Where something given stands in the record. */
interface Place {
  readonly list: 'drugs' | 'contrast';
  readonly index: number;
}

/** An allergy that a reaction in this case showed: it outranks what was known before. */
export interface FoundAllergy {
  /** To what; absent where nobody says. */
  readonly to?: Coded;
  /** Signs, as they were written. */
  readonly signs: readonly string[];
  readonly severity?: Complication['severity'];
  readonly certainty: 'unconfirmed' | 'confirmed';
  /** When it was seen, as a FHIR dateTime. */
  readonly at?: string;
  /** Path of the line that shows it. */
  readonly path: string;
  /** What was given. */
  readonly given: readonly Place[];
  /** Places in `complications`. */
  readonly complications: readonly number[];
}

/** Something given. */
interface Given extends Place {
  readonly to: Coded;
  /** Marked with a reaction. */
  readonly marked: boolean;
  readonly sign?: string | undefined;
}

/** A complication that is an allergic or contrast reaction. */
interface Told {
  readonly index: number;
  readonly entry: Complication;
  /** The substance, where the record names one. */
  readonly cause?: Coded | undefined;
  readonly contrast: boolean;
}

const pathOf = ({ list, index }: Place) => `${list}[${index}]`;

function givenIn(record: CaseRecord): Given[] {
  const drugs = entriesOf(record.drugs);
  const contrast = entriesOf(record.contrast);
  return [
    ...drugs.map(
      ({ drug, reaction }, index): Given => ({ list: 'drugs', index, to: drug, marked: reaction === true }),
    ),
    ...contrast.map(
      ({ agent, reaction }, index): Given => ({
        list: 'contrast',
        index,
        to: agent,
        marked: reaction !== undefined && tellsReaction(reaction),
        sign: reaction,
      }),
    ),
  ];
}

function toldIn(record: CaseRecord): Told[] {
  return entriesOf(record.complications).flatMap((entry, index): Told[] => {
    const named = reactionOf(entry.what.text, entry.what.codes);
    if (!named && !entry.suspect) return [];
    const cause =
      entry.suspect ?? (named?.cause === undefined ? undefined : { text: named.cause, codes: [] });
    return [{ index, entry, cause, contrast: named?.row.to === 'contrast' }];
  });
}

/** True where two texts name one substance, spelling and order of words aside. */
function sameSubstance(a: string, b: string): boolean {
  if (drugKey(a) === drugKey(b)) return true;
  if (drugsIn(a).length > 0 && drugsIn(b).length > 0) return false;
  const [some, others] = [wordsOf(a), wordsOf(b)];
  return some.length > 0 && some.every(word => others.includes(word));
}

/** Whether a complication can be the reaction to something given. */
function fits({ cause, contrast }: Told, { list, to }: Given): boolean {
  if (cause) return sameSubstance(cause.text, to.text) || isOfFamily(cause.text, list, to.text);
  return !contrast || list === 'contrast';
}

/** True where a cause is named by its family: 'penicillin' of amoxicillin, 'contrast medium' of any. */
function isOfFamily(cause: string, list: Place['list'], given: string): boolean {
  const families = allergenTable.find(cause)?.row.families ?? [];
  const known = drugsIn(given).flatMap(drug => drug.families);
  if (known.some(family => families.includes(family))) return true;
  return list === 'contrast' && known.length === 0 && families.some(family => family.endsWith('contrast'));
}

const severities = ['mild', 'moderate', 'severe'] as const;

/** Allergies that the record's reactions show, one for each substance: what was marked first, then complications alone. */
export function foundAllergies(record: CaseRecord): FoundAllergy[] {
  const given = givenIn(record);
  const told = toldIn(record);
  const marked = given.filter(one => one.marked);
  const alone = told.filter(one => !marked.some(mark => fits(one, mark)));
  const groups: { to: Coded | undefined; given: Given[]; told: Told[] }[] = [];
  for (const mark of marked) {
    const known = groups.find(({ to }) => to && sameSubstance(to.text, mark.to.text));
    if (known) known.given.push(mark);
    else groups.push({ to: mark.to, given: [mark], told: told.filter(one => fits(one, mark)) });
  }
  for (const one of alone) {
    const suspects = one.cause || one.contrast ? given.filter(candidate => fits(one, candidate)) : [];
    const names = [...new Set(suspects.map(({ to }) => to.text))];
    const to = one.cause ?? (names.length === 1 ? suspects[0]?.to : undefined);
    const known = groups.find(group => to && group.to && sameSubstance(group.to.text, to.text));
    if (known) known.told.push(one);
    else groups.push({ to, given: suspects, told: [one] });
  }
  return groups.map(group => allergy(group.to, group.given, group.told));
}

function allergy(to: Coded | undefined, given: readonly Given[], told: readonly Told[]): FoundAllergy {
  const severity = severities.findLast(one => told.some(({ entry }) => entry.severity === one));
  const at = told.find(({ entry }) => entry.at)?.entry.at?.iso;
  const [first] = given;
  const signs = [
    ...given.flatMap(({ marked, sign }) => (marked && sign !== undefined ? [sign] : [])),
    ...told.map(({ entry }) => entry.what.text),
  ];
  return {
    ...(to && { to }),
    signs: [...new Set(signs)],
    ...(severity && { severity }),
    certainty: told.some(({ entry }) => entry.certainty === 'confirmed') ? 'confirmed' : 'unconfirmed',
    ...(at !== undefined && { at }),
    path:
      first?.marked || !told[0]
        ? pathOf(first ?? { list: 'drugs', index: 0 })
        : `complications[${told[0].index}]`,
    given: given.map(({ list, index }) => ({ list, index })),
    complications: told.map(({ index }) => index),
  };
}

/** A reaction stands in two places: with what was given, and among the complications. */
export function reactionFindings(record: CaseRecord): Finding[] {
  const given = givenIn(record);
  const told = toldIn(record);
  const marked = given.filter(one => one.marked);
  const untold = marked.filter(mark => !told.some(one => fits(one, mark)) && !speaksOf(record, mark));
  const unmarked = told.filter(one => {
    if (marked.some(mark => fits(one, mark))) return false;
    // A reaction to what is no drug (latex, a dressing) has no other place.
    return !one.cause || given.some(candidate => fits(one, candidate));
  });
  return [
    ...untold.map(mark =>
      finding('clinical.reaction-without-complication', `${pathOf(mark)}.reaction`, { given: mark.to.text }),
    ),
    ...unmarked.map(one => {
      const { index, entry } = one;
      // Where it says what is suspected, that is the place of the mark.
      const meant = one.cause && given.find(candidate => fits(one, candidate));
      const place = meant && pathOf(meant);
      return finding(
        'clinical.complication-without-reaction',
        `complications[${index}].what`,
        { what: entry.what.text },
        place === undefined
          ? {}
          : {
              remedy: message(place.startsWith('drugs') ? 'answer.markDrug' : 'answer.markContrast', {
                place,
              }),
            },
      );
    }),
  ];
}

/** True where another complication names what was given: hypotension after propofol. */
function speaksOf(record: CaseRecord, { to }: Given): boolean {
  const names = new Set(drugsIn(to.text).map(({ name }) => name));
  return entriesOf(record.complications).some(({ what, action, result }) =>
    [what.text, action, result].some(text =>
      text
        ?.split(/[,;:()]|\b(?:after|with|by|from|of|to)\b/i)
        .some(part => drugsIn(part).some(({ name }) => names.has(name))),
    ),
  );
}
