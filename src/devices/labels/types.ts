import type { Finding } from '../../findings/finding.js';

/** The accredited issuing agencies whose labels are read. */
export type Issuer = 'gs1' | 'hibcc' | 'iccbba';

/** What a label is read with. Nothing here is taken from the clock or the environment. */
export interface LabelOptions {
  /** The day of reading, YYYY-MM-DD: two-digit years are placed in the century nearest to it. */
  readonly today: string;
  /** What the site's scanners print in place of the group separator (0x1D); replaces the built-in list. */
  readonly separatorAliases?: readonly string[];
  /** True when the site knows that its scanners always transmit the separator: nothing is then guessed. */
  readonly separatorsReliable?: boolean;
  /** `scan` when the text is known to be what the scanner sent, byte for byte; then carrierAIDC is given. */
  readonly entry?: 'scan' | 'typed';
  /** Severity of a wrong GS1 check digit or HIBC check character; 'error' unless the site says otherwise. */
  readonly wrongCheck?: 'error' | 'warning';
  /** Issuer URIs to write, where the receiving side wants others than the element definition's spelling. */
  readonly issuerUris?: Partial<IssuerUris>;
  /** URI of the jurisdiction's identification rules; a label itself never says it. */
  readonly jurisdiction?: string;
  /** Path of the label in the record, for findings; `label` when absent. */
  readonly path?: string;
}

/** One URI a kind of device identifier; ICCBBA has one for blood containers and one for everything else. */
export interface IssuerUris {
  readonly gs1: string;
  readonly hibcc: string;
  readonly iccbbaBlood: string;
  readonly iccbbaOther: string;
}

/** One element of a label as it stands there. */
export interface LabelElement {
  /** GS1 application identifier, HIBC flag or ISBT 128 data identifier. */
  readonly id: string;
  readonly name: string;
  /** As printed or encoded, never changed. */
  readonly raw: string;
  /** First character of the value in the text that was read, from 1. */
  readonly at: number;
}

/** The parts of a label that FHIR and a device list have a place for. */
export interface LabelParts {
  /** Device identifier: 14 digits (GS1), LIC + product code + unit of measure (HIBC), 16 or 10 characters (ICCBBA). */
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  /** YYYY-MM-DD, or YYYY-MM where the label states a month only and the standard does not say which day. */
  readonly expires?: string;
  /** `month` when the label states no day: `expires` then means the end of that month. */
  readonly expiresPrecision?: 'day' | 'month';
  /** Hour of expiry, 00 to 23, where the label carries one (the HIBC standard counts it in GMT). */
  readonly expiresHour?: string;
  /** YYYY-MM-DD or YYYY-MM. */
  readonly manufactured?: string;
  /** Donation identification number of a product of human origin. */
  readonly distinct?: string;
  /** Number of devices in the package, digits. */
  readonly quantity?: string;
}

/** One way to read a label whose separators were lost. */
export interface Reading extends LabelParts {
  /** The reading in bracketed form. */
  readonly text: string;
}

/** What a label says. Parts that cannot be trusted to stand where they seem to stand are left out. */
export interface DecodedLabel extends LabelParts {
  /** The text exactly as it came in. */
  readonly text: string;
  /** Absent when the text is no label of an agency that is read here. */
  readonly issuer?: Issuer;
  readonly issuerUri?: string;
  readonly jurisdiction?: string;
  /** Whether the check digit or character agrees; `none` where the agency's identifier has none. */
  readonly check?: 'right' | 'wrong' | 'missing' | 'none';
  /** All elements in the order of the label. */
  readonly elements: readonly LabelElement[];
  /** Human-readable form. */
  readonly carrierHRF?: string;
  /** Base64 of the bytes the scanner sent; only when these are known. */
  readonly carrierAIDC?: string;
  /** All readings of a label with lost separators, when there is more than one; none of them is applied. */
  readonly readings?: readonly Reading[];
  readonly findings: readonly Finding[];
}

/** A label being read: the parts found so far. */
export type LabelDraft = {
  -readonly [K in keyof DecodedLabel]: K extends 'findings'
    ? Finding[]
    : K extends 'elements'
      ? LabelElement[]
      : DecodedLabel[K];
};
