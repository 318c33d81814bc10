import { allergenTable } from './drugs/allergens.js';
import { drugsIn } from './drugs/table.js';
import { listOf, type Named, NameTable } from './names.js';
import { denies, wordsOf } from './words.js';

/** An allergic or contrast reaction, or a sign of one. */
export interface Reaction extends Named {
  /** `reaction`: one in itself; `sign`: one where a cause is named; `effect`: one where a field says so; `expected`: none. */
  readonly is: 'reaction' | 'sign' | 'effect' | 'expected';
  /** What it was to, where its name says it. */
  readonly to?: 'contrast';
  /** Codes of complications that mean it, as `system|code`. */
  readonly codes: readonly string[];
}

const SNOMED = 'http://snomed.info/sct';
const ICD10 = 'http://hl7.org/fhir/sid/icd-10';

function r(is: Reaction['is'], name: string, aliases: string, codes = '', to?: 'contrast'): Reaction {
  return {
    is,
    name,
    aliases: listOf(aliases),
    codes: listOf(codes).map(code => `${/^[A-Z]/.test(code) ? ICD10 : SNOMED}|${code}`),
    ...(to && { to }),
  };
}

/** Names: common practice, no source. Codes: SNOMED CT Global Patient Set; ICD-10 from memory. */
// biome-ignore format: a table reads best with one reaction a line
const reactions: readonly Reaction[] = [
  r('reaction', 'contrast reaction', 'contrast medium reaction|contrast media reaction|contrast agent reaction|adverse contrast reaction|contrast allergy|contrast medium allergy|allergic contrast reaction|contrast hypersensitivity|anaphylactoid contrast reaction|reaction iodinated contrast', '292095005|293637006', 'contrast'),
  r('reaction', 'anaphylaxis', 'anaphylactic reaction|anaphylactic shock|anaphylactoid reaction|anaphylactoid shock|allergic shock', '39579001|241937000|T78.2|T88.6|T80.5'),
  r('reaction', 'allergic reaction', 'allergy|allergic response|hypersensitivity reaction|drug allergy|allergic drug reaction|allergic-type reaction|allergy-like reaction|allergic-like reaction|drug hypersensitivity|allergic rash|drug rash|drug eruption|drug exanthema', '419076005|421961002|416093006|418634005|T78.4'),
  r('reaction', 'urticaria', 'hives|nettle rash|wheals|urticarial rash|allergic urticaria', '126485001|40178009|L50.0|L50.9'),
  r('reaction', 'angioedema', 'angioneurotic oedema|allergic oedema', '41291007|T78.3'),
  r('sign', 'rash', 'skin rash|exanthema|erythema|skin redness|redness'),
  r('sign', 'itching', 'pruritus|itch'),
  r('sign', 'bronchospasm', 'wheeze|wheezing', '4386001'),
  r('sign', 'swelling', 'facial swelling|swelling face|facial oedema|laryngeal oedema|lip swelling|tongue swelling'),
  r('sign', 'adverse reaction', 'reaction|drug reaction|adverse drug reaction'),
  r('effect', 'hypotension', 'fall blood pressure|low blood pressure|collapse|shock'),
  r('expected', 'warmth', 'feeling warmth|sensation warmth|warm feeling|heat|feeling heat|heat sensation|sensation heat|warm sensation|hot flush|metallic taste|taste metal'),
];

const table = new NameTable(reactions, {
  qualifiers:
    'mild moderate severe slight acute immediate delayed late early generalised general local localised diffuse suspected probable possible ' +
    'likely presumed transient brief grade i ii iii iv trunk arm leg face neck chest skin few some new both single widespread',
  cuts: 'after following during with from by at because due for under treated',
});

const marks = /[,;:()/+]|\band\b|\bbut\b/i;
const causes = /\b(?:to|after|following|from|by|caused by|due to)\b/i;

/** A reaction that a text names, and the words that say to what. */
export interface NamedReaction {
  readonly row: Reaction;
  readonly cause?: string;
}

/** Reactions and signs that a text names by one of its phrases; 'no allergic reaction' names none. */
export function reactionsIn(text: string): readonly NamedReaction[] {
  return text.split(marks).flatMap((phrase): NamedReaction[] => {
    const whole = table.find(phrase)?.row;
    const [head = '', ...rest] = phrase.split(causes);
    const cause = rest.at(-1)?.trim();
    const row = whole ?? table.find(head)?.row;
    if (!row) return [];
    return [cause ? { row, cause } : { row }];
  });
}

/** True for words that name a drug or another substance that people react to. */
const isSubstance = (text: string) => drugsIn(text).length > 0 || allergenTable.find(text) !== undefined;

/**
 * The reaction that a complication is, by its text or one of its codes, and its cause where the text names a substance.
 * A sign such as a rash is one only with its cause.
 */
export function reactionOf(
  text: string,
  codes: readonly { readonly system: string; readonly code: string }[],
): NamedReaction | undefined {
  const said = reactionsIn(text).map(({ row, cause }): NamedReaction => {
    return cause !== undefined && isSubstance(cause) ? { row, cause } : { row };
  });
  const found = said.find(({ row, cause }) => row.is === 'reaction' || (row.is === 'sign' && cause));
  if (found) return found;
  const written = new Set(codes.map(({ system, code }) => `${system}|${code}`));
  const row = reactions.find(one => one.is === 'reaction' && one.codes.some(code => written.has(code)));
  return row && { row };
}

const NONE = new Set(['none', 'nothing', 'nil', '-', '0']);

/** True where a field about a reaction says that there was one: neither 'none seen' nor only a feeling of warmth. */
export function tellsReaction(text: string): boolean {
  const [first = '', ...later] = text.split(marks).filter(phrase => phrase.trim() !== '');
  const [word = ''] = wordsOf(first);
  if (NONE.has(word) || NONE.has(text.trim()) || denies([word]))
    return later.some(phrase => reactionsIn(phrase).some(({ row }) => row.is !== 'expected'));
  const named = [first, ...later].map(phrase => reactionsIn(phrase));
  return !named.every(found => found.length > 0 && found.every(({ row }) => row.is === 'expected'));
}
