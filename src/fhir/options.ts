import type { IssuerUris } from '../devices/labels/types.js';
import type { Code, Identifier } from '../record/schema/fields.js';

/** Resources that other systems keep and that a case only points at. */
export type SharedKind = 'patient' | 'practitioner' | 'organization' | 'location' | 'encounter' | 'order';

/**
 * How a submission points at a shared resource: `match` by a conditional reference that must find exactly one,
 * `include` sent along and created when absent, `identifier` named by number only, `name` by name only (people and
 * places), or a server id that is known. What has no number of its own nothing could find: people and places are then
 * named, and everything else is included.
 */
export type ReferenceMode = 'match' | 'include' | 'identifier' | 'name' | { readonly id: string };

/** What a name in a record is the name of. */
export const subjects = [
  'case',
  'device',
  'drug',
  'site',
  'measurement',
  'specimen',
  'complication',
  'role',
  'condition',
  'allergy',
] as const;

export type Subject = (typeof subjects)[number];

/** A code of the site for a text; for names of one kind of thing alone, or for all. */
export type LocalCode = Code & { readonly what?: Subject | undefined };

/** Everything that shapes the resources and is not in the record. */
export interface MappingOptions {
  /** UUID of the site: every id is made from it, the case and the role. */
  readonly namespace: string;
  readonly identifiers: {
    /** Numbering system of the case ids. */
    readonly case: string;
    /** Numbering system of the accession numbers. */
    readonly accession?: string;
    /** Numbering system of the identifiers that every resource carries. */
    readonly resource: string;
  };
  readonly references: Readonly<Record<SharedKind, ReferenceMode>>;
  /** Spelling of the issuer addresses in udiCarrier; that of the element definition when absent. */
  readonly issuerUris?: IssuerUris;
  /** Address of the rules that the site's device identifiers are made under, for udiCarrier. */
  readonly jurisdiction?: string;
  /** The department, used when the record names none. */
  readonly organization: { readonly name: string; readonly identifier?: Identifier; readonly phone?: string };
  /** Whom to call when the record names nobody. */
  readonly contact?: string;
  /** Local codes by the text they stand for, compared without case. */
  readonly localCodes?: Readonly<Record<string, readonly LocalCode[]>>;
  /** Type of the Composition; LOINC 28570-0 Procedure note when absent. */
  readonly documentType?: Code;
  /** What kind of place the site is, for those who share documents. */
  readonly facilityType?: Code;
  /** True to send a DiagnosticReport beside Composition and DocumentReference. */
  readonly diagnosticReport?: boolean;
  /**
   * True to send that there is no known allergy, no anticoagulant and no sedation as resources; otherwise such a 'none'
   * stands in the document alone.
   */
  readonly negativeStatements?: boolean;
  /** Under which our profiles and code systems are published; `OWN_BASE` when absent. */
  readonly canonical?: string;
  /** True where the site may send SNOMED CT codes beyond the free Global Patient Set. */
  readonly snomedLicence?: boolean;
  /** True to send codes that no package carries and that nobody looked up, too. */
  readonly codesFromMemory?: boolean;
  /** BCP 47 tag of the report's language. */
  readonly language: string;
  readonly softwareVersion: string;
  /** `sha256:` and the hexadecimal digest of the record's source text, beside that of its content. */
  readonly sourceDigest?: string;
}

/** Which codes may be sent, and those of the site. */
export type CodeOptions = Pick<MappingOptions, 'localCodes' | 'snomedLicence' | 'codesFromMemory'>;
