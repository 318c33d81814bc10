import { listOf, type Named } from '../names.js';

/** Rows of the consensus table of bleeding risk that kinds of case belong to. */
export const bleedingRows = {
  exchange: 'low',
  filter: 'low',
  'dialysis-access': 'low',
  'venous-access': 'low',
  venous: 'low',
  paracentesis: 'low',
  thoracentesis: 'low',
  'chest-tube': 'low',
  'tunnelled-drain': 'low',
  'transjugular-biopsy': 'low',
  superficial: 'low',
  'lumbar-puncture': 'low',
  facet: 'low',
  injection: 'low',
  'limb-embolotherapy': 'low',
  urinary: 'high',
  biliary: 'high',
  abscess: 'high',
  'solid-organ': 'high',
  'deep-biopsy': 'high',
  ablation: 'high',
  gastrostomy: 'high',
  lysis: 'high',
  'portosystemic-shunt': 'high',
  portal: 'high',
  arterial: 'high',
  'thoracic-venous': 'high',
  'filter-complex': 'high',
  spine: 'high',
} as const satisfies Record<string, 'low' | 'high'>;

export type BleedingRow = keyof typeof bleedingRows;

/**
 * How a kind of case stands in that table: a row of it; `by sheath` for limb arteries; or why no row is taken:
 * `ureteric-stent`, `two-rows` (named in rows of both classes), `no-row`.
 */
export type Bleeding = BleedingRow | 'by sheath' | 'ureteric-stent' | 'two-rows' | 'no-row';

/** One kind of case. */
export interface CaseKind extends Named {
  readonly bleeding: Bleeding;
  /** What a registry hears of it: a wider kind, or its own name. */
  readonly registry: string;
  /** What an earlier case left is meant to come out. */
  readonly removes: boolean;
}

/** One row: name, row of the bleeding table, other names, wider kind for registries; `removal` where things are to come out. */
export function c(
  name: string,
  bleeding: Bleeding,
  aliases = '',
  registry = name,
  removal?: 'removal',
): CaseKind {
  return { name, bleeding, registry, removes: removal !== undefined, aliases: listOf(aliases) };
}
