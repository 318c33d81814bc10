import { expect, it } from 'vitest';
import {
  definitionIssuerUris,
  FDA_JURISDICTION,
  issuerOfUri,
  mappingIssuerUris,
} from '../../../src/devices/labels/issuers.js';

const base = 'http://hl7.org/fhir/NamingSystem';

// Source: HL7 FHIR R4, Device.udiCarrier.issuer (definition and mapping) and jurisdiction.
it.each([
  [`${base}/gs1-di`, 'gs1'],
  [`${base}/hibcc-dI`, 'hibcc'],
  [`${base}/iccbba-blood-di`, 'iccbba'],
  [`${base}/iccbba-other-di`, 'iccbba'],
  [`${base}/gs1`, 'gs1'],
  [`${base}/hibcc`, 'hibcc'],
  [`${base}/iccbba-blood`, 'iccbba'],
  [`${base}/iccbba-other`, 'iccbba'],
  [` ${base.toUpperCase()}/HIBCC-DI\n`, 'hibcc'],
  [`${base}/fda-udi`, undefined],
  [`${base}/gs1-dI/`, undefined],
  ['', undefined],
])('%j names %s', (uri, issuer) => {
  expect(issuerOfUri(uri)).toBe(issuer);
});

it('each agency has the URI of the definition and that of the mapping', () => {
  expect(definitionIssuerUris).toEqual({
    gs1: `${base}/gs1-di`,
    hibcc: `${base}/hibcc-dI`,
    iccbbaBlood: `${base}/iccbba-blood-di`,
    iccbbaOther: `${base}/iccbba-other-di`,
  });
  expect(mappingIssuerUris).toEqual({
    gs1: `${base}/gs1`,
    hibcc: `${base}/hibcc`,
    iccbbaBlood: `${base}/iccbba-blood`,
    iccbbaOther: `${base}/iccbba-other`,
  });
  expect(FDA_JURISDICTION).toBe(`${base}/fda-udi`);
});
