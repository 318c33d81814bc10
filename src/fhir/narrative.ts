/** One section of the report as FHIR narrative. */
export interface NarrativeSection {
  /** Key of the section table in `codes/sections.ts`; a key that is not there gives a section without a code. */
  readonly key: string;
  /** Heading for people; the section table has one for each of its keys. */
  readonly title?: string;
  /** One `div` element in the XHTML namespace, within FHIR's narrative rules. */
  readonly div: string;
}

/** A rendered form of the report that travels inside the DocumentReference. */
export interface NarrativeAttachment {
  /** Media type, such as `text/html`. */
  readonly contentType: string;
  /** BCP 47 tag, such as `en-GB`. */
  readonly language?: string;
  readonly title: string;
  /** The bytes; text is taken as UTF-8. */
  readonly data: Uint8Array | string;
}

/** The report of a case as the resources carry it. */
export interface Narrative {
  readonly title: string;
  /** The whole report: one `div` element in the XHTML namespace. */
  readonly div: string;
  readonly sections: readonly NarrativeSection[];
  readonly attachments: readonly NarrativeAttachment[];
}
