import type { Issuer, IssuerUris } from './types.js';

/** As FHIR R4's Device definition spells them (Device.udiCarrier.issuer, definition text). */
export const definitionIssuerUris: IssuerUris = {
  gs1: 'http://hl7.org/fhir/NamingSystem/gs1-di',
  hibcc: 'http://hl7.org/fhir/NamingSystem/hibcc-dI',
  iccbbaBlood: 'http://hl7.org/fhir/NamingSystem/iccbba-blood-di',
  iccbbaOther: 'http://hl7.org/fhir/NamingSystem/iccbba-other-di',
};

/** As FHIR R4's UDI mapping of the same definition and its examples spell them. */
export const mappingIssuerUris: IssuerUris = {
  gs1: 'http://hl7.org/fhir/NamingSystem/gs1',
  hibcc: 'http://hl7.org/fhir/NamingSystem/hibcc',
  iccbbaBlood: 'http://hl7.org/fhir/NamingSystem/iccbba-blood',
  iccbbaOther: 'http://hl7.org/fhir/NamingSystem/iccbba-other',
};

/** Jurisdiction of the United States rules, the one FHIR R4 names (Device.udiCarrier.jurisdiction). */
export const FDA_JURISDICTION = 'http://hl7.org/fhir/NamingSystem/fda-udi';

/** The issuer that a URI names in either of R4's spellings, upper or lower case; nothing when it names none. */
export function issuerOfUri(uri: string): Issuer | undefined {
  const wanted = uri.trim().toLowerCase();
  for (const uris of [definitionIssuerUris, mappingIssuerUris]) {
    if (uris.gs1.toLowerCase() === wanted) return 'gs1';
    if (uris.hibcc.toLowerCase() === wanted) return 'hibcc';
    if (uris.iccbbaBlood.toLowerCase() === wanted || uris.iccbbaOther.toLowerCase() === wanted)
      return 'iccbba';
  }
  return undefined;
}
