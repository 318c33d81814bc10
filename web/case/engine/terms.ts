import { type Language, languageData } from '../../../src/findings/languages.js';
import { namer } from '../../../src/findings/names.js';
import type { NameList } from '../../../src/findings/words/language.js';
import type { Site } from '../../../src/site/site.js';
import { analytes } from '../../../src/trade/analytes.js';
import { caseKinds } from '../../../src/trade/cases/table.js';
import { deviceKinds } from '../../../src/trade/devices/table.js';
import { allergens } from '../../../src/trade/drugs/allergens.js';
import { drugTable } from '../../../src/trade/drugs/table.js';

/** Names that a field suggests while somebody types. */
export type TermKind = 'devices' | 'cases' | 'drugs' | 'labs' | 'allergens';

/** A name as the record has it, as people read it, and what else finds it. */
export interface Term {
  readonly name: string;
  readonly said: string;
  readonly also: readonly string[];
}

/** Fields that have such names. */
export const termKinds: Readonly<Record<string, TermKind>> = {
  'devices.kind': 'devices',
  'case.kind': 'cases',
  'drugs.drug': 'drugs',
  'before.anticoagulants.drug': 'drugs',
  'before.allergies.to': 'allergens',
  'before.labs.what': 'labs',
  'after.labs.what': 'labs',
};

type Row = { readonly name: string; readonly aliases?: readonly string[] | undefined };

/** The names of the trade, the site's own kinds of device first. */
export function termsIn(language: Language, site: Site): Readonly<Record<TermKind, readonly Term[]>> {
  const { bare } = namer(languageData(language));
  const terms = (rows: readonly Row[], ...lists: readonly NameList[]): Term[] =>
    rows.map(({ name, aliases = [] }) => ({
      name,
      said: lists.map(list => bare(list, name)).find(found => found !== undefined) ?? name,
      also: aliases,
    }));
  return {
    devices: terms([...Object.keys(site.devices.kinds).map(name => ({ name })), ...deviceKinds], 'devices'),
    cases: terms(caseKinds, 'cases'),
    drugs: terms(drugTable.rows, 'drugs', 'values'),
    labs: terms(analytes, 'values'),
    allergens: terms(allergens, 'drugs', 'values'),
  };
}
