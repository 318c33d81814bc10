import { describe, expect, it } from 'vitest';
import { decodeLabel } from '../../src/devices/labels/decode.js';
import {
  definitionIssuerUris,
  FDA_JURISDICTION,
  issuerOfUri,
  mappingIssuerUris,
} from '../../src/devices/labels/issuers.js';
import { labelCommandResult, labelExitCode } from '../../src/devices/labels/result.js';

const today = '2026-11-25';
const GS = '\u001d';

interface Published {
  readonly source: string;
  readonly text: string;
  readonly parts: Record<string, string>;
  readonly exit?: 0 | 1;
  readonly codes?: readonly string[];
}

/** Labels as printed in public documents, with the parts these documents give them. */
const published: readonly Published[] = [
  {
    source: 'FDA, UDI formats by FDA-accredited issuing agency, v1.3, GS1 example',
    text: '(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234',
    parts: {
      issuer: 'gs1',
      di: '51022222233336',
      manufactured: '2014-12-31',
      expires: '2015-07-07',
      lot: 'A213B1',
      serial: '1234',
    },
  },
  {
    source:
      'the same as the element strings that its symbol holds (GS1 General Specifications, concatenation)',
    text: `]d20151022222233336111412311715070710A213B1${GS}211234`,
    parts: {
      issuer: 'gs1',
      di: '51022222233336',
      manufactured: '2014-12-31',
      expires: '2015-07-07',
      lot: 'A213B1',
      serial: '1234',
      carrierHRF: '(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234',
    },
  },
  {
    source: 'IMDRF UDI WG/N48, appendix A, GS1 example',
    text: '(01)09506000117843(11)141231(17)201231(10)1234AB(21)5678CD',
    parts: {
      issuer: 'gs1',
      di: '09506000117843',
      manufactured: '2014-12-31',
      expires: '2020-12-31',
      lot: '1234AB',
      serial: '5678CD',
    },
  },
  {
    source: 'HL7 v2 PRT-10, GS1 example',
    text: '(01)00643169001763(17)160712(21)21A11F4855',
    parts: { issuer: 'gs1', di: '00643169001763', expires: '2016-07-12', serial: '21A11F4855' },
  },
  {
    source: 'HL7 FHIR Device/example-udi1, carrierHRF',
    text: '{01}00844588003288{17}141120{10}7654321D{21}10987654d321',
    parts: {
      issuer: 'gs1',
      di: '00844588003288',
      expires: '2014-11-20',
      lot: '7654321D',
      serial: '10987654d321',
    },
  },
  {
    source: 'HL7 FHIR Device/example-udi1, carrierAIDC decoded: another device, separators as U+2194',
    text: ']d20110857674002017171411' + '2010NYFUL01\u219421192837\u2194713A1B2C3D4E5F6G',
    parts: { issuer: 'gs1', di: '10857674002017', expires: '2014-11-20', lot: 'NYFUL01', serial: '192837' },
  },
  {
    source: 'HL7 v2 PRT-10: digits alone are a GS1 device identifier',
    text: '00643169001763',
    parts: { issuer: 'gs1', di: '00643169001763' },
    codes: ['label.bare-number'],
  },
  {
    source: 'FDA, IMDRF UDI WG/N48 and HL7 FHIR Device/example-udi3; its check character does not agree',
    text: '+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202C',
    parts: {
      issuer: 'hibcc',
      di: 'H123PARTNO1234567890120',
      expires: '2020-02-02',
      lot: 'LOT123456789012345',
      serial: 'XYZ456789012345678',
      manufactured: '2013-02-02',
    },
    codes: ['label.check-character-space'],
  },
  {
    source: 'HL7 v2 PRT-10, the same example printed with a space in the serial number: C is then right',
    text: '+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ4567890123 45678/16D20130202C',
    parts: {
      issuer: 'hibcc',
      di: 'H123PARTNO1234567890120',
      lot: 'LOT123456789012345',
      serial: 'XYZ456789012345678',
    },
    codes: ['label.spaces'],
  },
  {
    source: 'ANSI/HIBC 2.6, section 4.3.1 and appendix B, primary data structure',
    text: '*+A123BJC5D6E71G*',
    parts: { issuer: 'hibcc', di: 'A123BJC5D6E71', carrierHRF: '+A123BJC5D6E71G' },
  },
  {
    source: 'ANSI/HIBC 2.6, appendix E, secondary data structure with link character G',
    text: '+A123BJC5D6E71G+$$52001510X3GD',
    parts: { issuer: 'hibcc', di: 'A123BJC5D6E71', expires: '2020-01-15', lot: '10X3' },
  },
  {
    source: 'ANSI/HIBC 2.6, section 4.3.3, primary and secondary concatenated',
    text: '+A123BJC5D6E71/$$52001510X3C',
    parts: { issuer: 'hibcc', di: 'A123BJC5D6E71', expires: '2020-01-15', lot: '10X3' },
  },
  {
    source: 'ANSI/HIBC 2.6, appendix C.3',
    text: '+H123ABC01234567890D',
    parts: { issuer: 'hibcc', di: 'H123ABC01234567890' },
  },
  {
    source: 'IMDRF UDI WG/N48, HIBC sample with serial number',
    text: '+A999ABC123DE0/$+1234567Y',
    parts: { issuer: 'hibcc', di: 'A999ABC123DE0', serial: '1234567' },
  },
  {
    source: 'IMDRF UDI WG/N48, its sibling, whose check character should be Z',
    text: '+A999ABC123DE1/$+1234567Y',
    parts: { issuer: 'hibcc', di: 'A999ABC123DE1', serial: '1234567' },
    exit: 1,
    codes: ['label.check-character'],
  },
  {
    source: 'HIBCC guide to device identifiers: identifier A999ABC1230, check character V',
    text: '+A999ABC1230V',
    parts: { issuer: 'hibcc', di: 'A999ABC1230' },
  },
  {
    source: 'FDA and IMDRF UDI WG/N48, ICCBBA example',
    text: '=/A9999XYZ100T0944=,000025=A99971312345600=>014032=}013032&,1000000000000XYZ123',
    parts: {
      issuer: 'iccbba',
      di: 'A9999XYZ100T0944',
      serial: '000025',
      distinct: 'A99971312345600',
      expires: '2014-02-01',
      manufactured: '2013-02-01',
      lot: '000000000000XYZ123',
    },
  },
  {
    source: 'IMDRF UDI WG/N48 prints the same with a space before the expiry date',
    text: '=/A9999XYZ100T0944=,000025=A99971312345600= >014032=}013032&,1000000000000XYZ123',
    parts: { issuer: 'iccbba', di: 'A9999XYZ100T0944', serial: '000025', expires: '2014-02-01' },
    codes: ['label.spaces'],
  },
  {
    source: 'ICCBBA ST-017, full compound message',
    text: '=+06000=/A9999XYZ100T0476=,000025=A99971712345600=>019032=}017032&,1000000000000XYZ123',
    parts: {
      issuer: 'iccbba',
      di: 'A9999XYZ100T0476',
      serial: '000025',
      distinct: 'A99971712345600',
      expires: '2019-02-01',
      manufactured: '2017-02-01',
      lot: '000000000000XYZ123',
      carrierHRF: '=/A9999XYZ100T0476=,000025=A99971712345600=>019032=}017032&,1000000000000XYZ123',
    },
  },
  {
    source: 'HL7 FHIR Device/example-udi4, blood container',
    text: '=)1TE123456A&)RZ12345678',
    parts: { issuer: 'iccbba', di: '1TE123456A', lot: 'RZ12345678' },
  },
];

describe('labels as published', () => {
  it.each(published)('$text ($source)', ({ text, parts, exit, codes }) => {
    const decoded = decodeLabel(text, { today });
    expect(labelCommandResult(decoded)).toMatchObject(parts);
    expect(labelExitCode(decoded)).toBe(exit ?? 0);
    if (codes !== undefined) expect(decoded.findings.map(f => f.code)).toEqual(codes);
    else if (exit === undefined) expect(decoded.findings).toEqual([]);
  });

  it('keeps the hour of a HIBC expiry apart from the date, for want of a time zone (FHIR R4 Device mapping)', () => {
    const text = '+H123PARTNO1234567890120/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202C';
    expect(decodeLabel(text, { today })).toMatchObject({ expires: '2020-02-02', expiresHour: '16' });
  });
});

describe('published identifiers whose check digit does not agree', () => {
  it.each([
    ['C-CDA UDI example', '00999998998989', '0'],
    ['public look-up API fixture', '00208851107345', '7'],
    ['public look-up API fixture', '00011954013448', '2'],
  ])('%s %s is read, and the finding names the digit %s', (_, di, expected) => {
    const text = `(01)${di}(17)150331(10)A213B1`;
    const decoded = decodeLabel(text, { today });
    expect(decoded).toMatchObject({ di, lot: 'A213B1', expires: '2015-03-31', check: 'wrong' });
    expect(decoded.findings).toHaveLength(1);
    expect(decoded.findings[0]).toMatchObject({
      code: 'label.check-digit',
      severity: 'error',
      params: { at: '18', found: di.at(-1), expected },
    });
    const lenient = decodeLabel(text, { today, wrongCheck: 'warning' });
    expect(lenient.findings[0]).toMatchObject({ code: 'label.check-digit', severity: 'warning' });
    expect(labelExitCode(lenient)).toBe(0);
  });
});

describe('issuer URIs', () => {
  it("writes the spelling of FHIR R4's element definition and reads both of its spellings", () => {
    const blood = decodeLabel('=)1TE123456A&)RZ12345678', { today });
    expect(blood.issuerUri).toBe('http://hl7.org/fhir/NamingSystem/iccbba-blood-di');
    expect(decodeLabel('+A123BJC5D6E71G', { today }).issuerUri).toBe(
      'http://hl7.org/fhir/NamingSystem/hibcc-dI',
    );
    const other = decodeLabel('+A123BJC5D6E71G', {
      today,
      issuerUris: mappingIssuerUris,
      jurisdiction: FDA_JURISDICTION,
    });
    expect(other).toMatchObject({
      issuerUri: 'http://hl7.org/fhir/NamingSystem/hibcc',
      jurisdiction: 'http://hl7.org/fhir/NamingSystem/fda-udi',
    });
    for (const uris of [definitionIssuerUris, mappingIssuerUris]) {
      expect(Object.values(uris).map(issuerOfUri)).toEqual(['gs1', 'hibcc', 'iccbba', 'iccbba']);
    }
    expect(issuerOfUri('http://hl7.org/fhir/NamingSystem/hibcc-di')).toBe('hibcc');
    expect(issuerOfUri('urn:other')).toBeUndefined();
  });
});
