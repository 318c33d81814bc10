import type { CatalogueEntry } from '../define.js';
import type { clinicalWording } from '../wording/clinical.js';
import type { doseWording } from '../wording/doses.js';
import type { sizeWording } from '../wording/sizes.js';
import type { tallyWording } from '../wording/tally.js';
import type { tradeWording } from '../wording/trade.js';

type Warnings<T extends Record<string, CatalogueEntry>> = {
  [Code in keyof T]: T[Code]['severity'] extends 'warning' ? Code : never;
}[keyof T] &
  string;

/** Findings that a record can acknowledge, and the report then prints: these every language says. */
export type ReportedKey = `finding.${
  | Warnings<typeof clinicalWording>
  | Warnings<typeof sizeWording>
  | Warnings<typeof tallyWording>
  | Warnings<typeof tradeWording>
  | Warnings<typeof doseWording>}`;
