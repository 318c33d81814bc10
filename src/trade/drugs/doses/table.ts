import { anaesthesiaDoses } from './anaesthesia.js';
import { antimicrobialDoses } from './antimicrobials.js';
import type { Dosing } from './dosing.js';
import { otherDoses } from './other.js';
import { vesselDoses } from './vessels.js';

/** Whose figures these are, as findings say it. */
export const DOSES_BASIS = 'product information and formularies; from memory, confirm against local policy';

/** Usual single doses, by drug and route. */
export const dosings: readonly Dosing[] = [
  ...anaesthesiaDoses,
  ...antimicrobialDoses,
  ...vesselDoses,
  ...otherDoses,
];

const byDrug = new Map<string, readonly Dosing[]>();
for (const row of dosings) byDrug.set(row.drug, [...(byDrug.get(row.drug) ?? []), row]);

/** Every row of a drug, by the name of its row in the table of drugs. */
export const dosingsOf = (drug: string): readonly Dosing[] => byDrug.get(drug) ?? [];
