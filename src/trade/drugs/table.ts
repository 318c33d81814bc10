import { remembered } from '../../record/remembered.js';
import { NameTable } from '../names.js';
import { anaesthesia } from './anaesthesia.js';
import { antimicrobials } from './antimicrobials.js';
import { contrastMedia } from './contrast.js';
import type { Drug, DrugFamily } from './drug.js';
import { otherDrugs } from './other.js';

export type { Drug } from './drug.js';

/** Drugs and contrast media. */
export const drugTable = new NameTable<Drug>(
  [...contrastMedia, ...antimicrobials, ...anaesthesia, ...otherDrugs],
  {
    qualifiers:
      'sodium potassium hydrochloride hcl hydrobromide citrate sulfate phosphate acetate maleate mesilate mesylate besilate ' +
      'bromide tartrate bitartrate succinate meglumine dimeglumine lysine trometamol tromethamine monohydrate anhydrous base calcium ' +
      'injection solution infusion bolus lock flush iv im oral intravenous topical tablet spray gel cream patch plain buffered isobaric ' +
      'hyperbaric heavy sterile preservative prefilled warmed medical mgi mg mcg ug g kg iu i ml % unit per l dose premedication ' +
      'prophylaxis prophylactic contrast medium media agent acid free etexilate mofetil',
    cuts: 'without no for as diluted',
  },
);

/**
 * Stems of international non-proprietary names, for drugs that the table does not name.
 * WHO, The use of stems in the selection of international non-proprietary names (INN); from memory.
 */
const stems: readonly (readonly [RegExp, DrugFamily])[] = [
  [/cillin$/, 'penicillin'],
  [/^cef/, 'cephalosporin'],
  [/penem$/, 'carbapenem'],
  [/floxacin$/, 'quinolone'],
  [/caine$/, 'amide local anaesthetic'],
  [/fentanil$|fentanyl$/, 'opioid'],
  [/azepam$|azolam$/, 'benzodiazepine'],
  [/parin$/, 'heparin'],
  [/^gado/, 'gadolinium contrast'],
];

const parted = /\+|\/|,|;|&|\band\b|\bwith\b|\bplus\b|\bin\b/i;

/** Drugs that a text names: one, or those of a combination. `without …` names nothing that comes after it. */
export const drugsIn: (text: string) => readonly Drug[] = remembered(text => {
  const plain = text.replace(/\b(?:without|no)\b.*$/i, '');
  const whole = drugTable.find(plain);
  if (whole) return [whole.row];
  return [
    ...new Set(
      plain
        .replace(/\bmg\s?I?\/\s?mL\b/gi, 'mg')
        .split(parted)
        .flatMap(part => drugTable.find(part)?.row ?? byStem(part) ?? []),
    ),
  ];
});

function byStem(part: string): Drug | undefined {
  const word = part.trim().toLowerCase().split(/\s+/)[0] ?? '';
  const found = /^[a-z]{6,}$/.test(word) ? stems.find(([stem]) => stem.test(word)) : undefined;
  if (!found) return undefined;
  const element = found[1] === 'gadolinium contrast' ? ({ element: 'gadolinium' } as const) : {};
  return { name: word, aliases: [], families: [found[1]], ...element };
}

/** What an agent carries, by its generic name; undefined when the name does not tell. */
export function elementOf(agent: string): Drug['element'] {
  const elements = drugsIn(agent).flatMap(row => row.element ?? []);
  return elements.find(element => element !== 'none') ?? elements[0];
}

/** One text for every name of a drug or combination; the text as written where it is not known. */
export function drugKey(text: string): string {
  const names = drugsIn(text).map(row => row.name);
  return names.length > 0
    ? names.sort().join(' + ')
    : text
        .trim()
        .toLowerCase()
        .replace(/[\s-]+/g, ' ');
}

/** Drugs that single words of a longer text name. */
export const drugsAmong = (text: string): readonly Drug[] =>
  text.split(/[\s/]+/).flatMap(word => drugsIn(word.replace(/[^\p{L}\d-]/gu, '')));
