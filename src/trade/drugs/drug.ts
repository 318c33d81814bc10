import { listOf, type Named } from '../names.js';

/** What an agent given as contrast carries. */
export type Element = 'iodine' | 'gadolinium' | 'none';

/** Families of drugs that an allergy, a limit or a total is about. */
export type DrugFamily =
  | 'iodinated contrast'
  | 'gadolinium contrast'
  | 'ultrasound contrast'
  | 'without iodine'
  | 'iodine'
  | 'penicillin'
  | 'aminopenicillin'
  | 'cephalosporin'
  | 'aminocephalosporin'
  | 'carbapenem'
  | 'monobactam'
  | 'aminoglycoside'
  | 'macrolide'
  | 'quinolone'
  | 'glycopeptide'
  | 'nitroimidazole'
  | 'sulphonamide'
  | 'amide local anaesthetic'
  | 'ester local anaesthetic'
  | 'opioid'
  | 'phenanthrene opioid'
  | 'phenylpiperidine opioid'
  | 'benzodiazepine'
  | 'NSAID'
  | 'salicylate'
  | 'heparin'
  | 'protamine'
  | 'corticosteroid'
  | 'chlorhexidine'
  | 'gelatin'
  | 'trimethoprim'
  | 'anticoagulant'
  | 'antiplatelet'
  | 'cytotoxic'
  | 'anaesthetic'
  | 'muscle relaxant'
  | 'egg';

/** One drug by its international non-proprietary name. */
export interface Drug extends Named {
  readonly families: readonly DrugFamily[];
  readonly element?: Element;
}

/** One row: name, families parted by `+`, other names. */
export function d(name: string, families: string, aliases = ''): Drug {
  const of = (families === '' ? [] : families.split('+')) as DrugFamily[];
  const element: Element | undefined = of.includes('iodinated contrast')
    ? 'iodine'
    : of.includes('gadolinium contrast')
      ? 'gadolinium'
      : of.includes('without iodine') || of.includes('ultrasound contrast')
        ? 'none'
        : undefined;
  return {
    name,
    families: of,
    aliases: listOf(aliases),
    ...(element && { element }),
  };
}
