import type { Language } from '../findings/languages.js';
import type { ChangedFact } from '../record/changes/compare.js';

/** Who a report is for. */
export const audiences = ['record', 'referrer', 'ward', 'patient'] as const;
export type Audience = (typeof audiences)[number];

/** What a report is rendered as: a whole HTML page, plain text, or an XHTML fragment for FHIR. */
export const formats = ['html', 'text', 'xhtml'] as const;
export type Format = (typeof formats)[number];

/** What the view needs besides the record and its assessment. */
export interface ReportOptions {
  /** Language of the fixed words; what people wrote stays as written. `en-GB` when absent. */
  readonly language?: Language;
  /** Whom to call where the record names nobody: the department's own line. */
  readonly contact?: string;
  /** What this version tells differently from the one before it. */
  readonly changes?: readonly ChangedFact[];
  /** Digest of the canonical record, `sha256:…`, printed beside the signature. */
  readonly digest?: string;
}
