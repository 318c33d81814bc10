import type { CatalogueEntry } from '../define.js';
import type { agreementWording } from '../wording/agreement.js';
import type { clinicalWording } from '../wording/clinical.js';
import type { courseWording } from '../wording/course.js';
import type { doseWording } from '../wording/doses.js';
import type { leftWording } from '../wording/left.js';
import type { missingWording } from '../wording/missing.js';
import type { reactionWording } from '../wording/reactions.js';
import type { sizeWording } from '../wording/sizes.js';
import type { tallyWording } from '../wording/tally.js';
import type { tradeWording } from '../wording/trade.js';

type Warnings<T extends Record<string, CatalogueEntry>> = {
  [Code in keyof T]: T[Code]['severity'] extends 'warning' ? Code : never;
}[keyof T] &
  string;

/** The warnings of one file of wording. */
export type WarningKey<T extends Record<string, CatalogueEntry>> = `finding.${Warnings<T>}`;

/** Findings that a record can acknowledge, and the report then prints: these every language says. */
export type ReportedKey = `finding.${
  | 'record.order-of-times'
  | 'record.outside-case'
  | Warnings<typeof agreementWording>
  | Warnings<typeof clinicalWording>
  | Warnings<typeof reactionWording>
  | Warnings<typeof sizeWording>
  | Warnings<typeof courseWording>
  | Warnings<typeof leftWording>
  | Warnings<typeof missingWording>
  | Warnings<typeof tallyWording>
  | Warnings<typeof tradeWording>
  | Warnings<typeof doseWording>}`;
