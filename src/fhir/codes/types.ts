import type { Coding } from 'fhir/r4.js';

/** A code of a published code system with the place it was taken from. */
export interface KnownCode {
  readonly system: string;
  readonly code: string;
  /** As the source has it. */
  readonly display: string;
  /** File of an npm FHIR package that carries code and display; or where else it comes from, in brackets. */
  readonly source: string;
  /** True for a code that may be sent under a licence of its code system alone. */
  readonly licensed?: true;
}

export const SNOMED = 'http://snomed.info/sct';
const LOINC = 'http://loinc.org';
const DICOM = 'http://dicom.nema.org/resources/ontology/DCM';

/** SNOMED CT Global Patient Set inside the terminology package. */
const GPS = 'hl7.terminology.r4/ValueSet-snomed-intl-gps.json';
/** Expansions of the R4 value sets inside the examples package. */
const EXPANSIONS = 'hl7.fhir.r4.examples/Bundle-valueset-expansions.json';

/** A SNOMED CT code of the Global Patient Set, under its fully specified name. */
export const gps = (code: string, display: string): KnownCode => ({
  system: SNOMED,
  code,
  display,
  source: GPS,
});

/** A SNOMED CT code of an R4 value set expansion that no free set has: it is sent where the site has a licence. */
export const sct = (code: string, display: string): KnownCode => ({
  system: SNOMED,
  code,
  display,
  source: EXPANSIONS,
  licensed: true,
});

/** A LOINC code of an R4 value set expansion, or of another file of the packages. */
export const loinc = (code: string, display: string, source: string = EXPANSIONS): KnownCode => ({
  system: LOINC,
  code,
  display,
  source,
});

/** A DICOM code of the R4 copy of its dictionary. */
export const dcm = (code: string, display: string): KnownCode => ({
  system: DICOM,
  code,
  display,
  source: 'hl7.fhir.r4.examples/CodeSystem-dicom-dcim.json',
});

/** A code of one of FHIR's or HL7's own code systems. */
export const hl7 = (system: string, code: string, display: string, source: string): KnownCode => ({
  system,
  code,
  display,
  source,
});

/** The FHIR Coding of a known code. */
export function codingOf(known: KnownCode): Coding {
  return { system: known.system, code: known.code, display: known.display };
}
