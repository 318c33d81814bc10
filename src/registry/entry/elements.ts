import type { DeviceUseStatement, Procedure } from 'fhir/r4.js';
import type { DeviceAction } from './action.js';

/** What a case says of complications: none is another answer than no answer. */
export const complicationAnswers = ['none', 'graded', 'ungraded', 'not recorded'] as const;

/** Why a device came out, as far as the record tells it. */
export const removalReasons = ['exchanged', 'failed', 'not recorded'] as const;

/**
 * Every element that an entry may have, whatever format it is sent in. Pseudonyms stand for people and cases; dates are
 * as precise as agreed (`YYYY`, `YYYY-MM`, `YYYY-MM-DD`); a code is `SYSTEM|CODE`; a quantity is its digits and its UCUM
 * unit, `8.5 [Ch]`.
 */
export interface EntryElements {
  /** Pseudonym of the entry: of the case and the device, or part, in it. */
  readonly entry: string;
  /** 1 for a first report of it; set when it is sent. */
  readonly version?: number;
  readonly status: DeviceUseStatement['status'];
  readonly action: DeviceAction;
  /** Pseudonym of the entry that told of its placing, where another case of the site did. */
  readonly placedEntry?: string;
  readonly patient: string;
  readonly sex?: 'male' | 'female' | 'other' | 'unknown';
  /** `45-49`, or a year, or `90+`. */
  readonly ageGroup?: string;
  /** Pseudonym of the case. */
  readonly case: string;
  /** Kinds of case, the first named first. */
  readonly caseKind: readonly string[];
  readonly caseStatus: Procedure['status'];
  /** Of the case. */
  readonly date: string;
  readonly outcome?: string;
  readonly complications: (typeof complicationAnswers)[number];
  /** Scale and grade of each graded complication. */
  readonly grades: readonly string[];
  /** Codes of the conditions that the case was done for. */
  readonly indication?: readonly string[];
  /** Pseudonyms. */
  readonly unit?: string;
  readonly operator?: string;
  /** UDI device identifier, and the address of who issued it. */
  readonly identifier?: string;
  readonly issuer?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly made?: string;
  readonly maker?: string;
  readonly model?: string;
  readonly reference?: string;
  readonly family: string;
  readonly kind?: string;
  readonly diameter?: string;
  readonly length?: string;
  /** True for a part that went another way than its device. */
  readonly part?: true;
  /** How many alike it stands for; absent for one device. */
  readonly count?: number;
  readonly placed?: string;
  readonly ended?: string;
  /** From placing to end, where both are known to the day. */
  readonly dwellDays?: number;
  readonly removalReason?: (typeof removalReasons)[number];
  /** The next day on which something is planned about it. */
  readonly nextReview?: string;
  readonly site?: string;
  readonly side?: 'left' | 'right' | 'both' | 'midline';
}

export type ElementName = keyof EntryElements;

/** What each element is, for definitions, messages and the documentation. */
export const elementMeanings: Readonly<Record<ElementName, string>> = {
  entry: 'pseudonym of the entry',
  version: 'version of the entry',
  status: 'status of the entry',
  action: 'what happened to the device',
  placedEntry: 'pseudonym of the entry that told of its placing',
  patient: 'pseudonym of the patient',
  sex: 'sex',
  ageGroup: 'age group',
  case: 'pseudonym of the case',
  caseKind: 'kind of case',
  caseStatus: 'whether the case was completed',
  date: 'date of the case',
  outcome: 'technical outcome',
  complications: 'what was said of complications',
  grades: 'grades of complications',
  indication: 'codes of the indication',
  unit: 'pseudonym of the unit',
  operator: 'pseudonym of the operator',
  identifier: 'device identifier (UDI-DI)',
  issuer: 'issuer of the device identifier',
  lot: 'lot number',
  serial: 'serial number',
  expires: 'expiry date',
  made: 'date of manufacture',
  maker: 'maker',
  model: 'model',
  reference: 'catalogue number',
  family: 'family of device',
  kind: 'kind of device',
  diameter: 'diameter',
  length: 'length',
  part: 'part of a device',
  count: 'number alike',
  placed: 'date of placing',
  ended: 'date of removal',
  dwellDays: 'days from placing to removal',
  removalReason: 'why it came out',
  nextReview: 'next day planned',
  site: 'code of the site',
  side: 'side',
};

export const elementNames = Object.keys(elementMeanings) as ElementName[];

/** Elements that are made only where a definition asks for them: without one, an entry is as narrow as it can be. */
export const askedElements = [
  'placedEntry',
  'indication',
  'unit',
  'operator',
  'expires',
  'made',
  'kind',
  'diameter',
  'length',
  'dwellDays',
  'removalReason',
  'nextReview',
  'site',
  'side',
] as const satisfies readonly ElementName[];

export type AskedElement = (typeof askedElements)[number];
