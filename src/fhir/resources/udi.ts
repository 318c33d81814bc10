import type { DeviceUdiCarrier } from 'fhir/r4.js';
import type { DecodedLabel, IssuerUris } from '../../devices/labels/types.js';
import type { DeviceDetails } from '../../devices/types.js';
import type { MappingOptions } from '../options.js';

/** A device identifier of fourteen digits is a GTIN: GS1 is then the issuer even without a full label. */
const GTIN = /^\d{14}$/;

/**
 * udiCarrier of a device: the identifier alone in `deviceIdentifier`, the readable form always, the scanned bytes in
 * base64 only when they are known.
 */
export function udiCarrierOf(details: DeviceDetails, options: MappingOptions): DeviceUdiCarrier | undefined {
  const { label, di } = details;
  const jurisdiction = options.jurisdiction ?? label?.jurisdiction;
  if (label?.issuer)
    return {
      deviceIdentifier: di ?? label.di,
      issuer: issuerUri(label, options.issuerUris),
      jurisdiction,
      carrierAIDC: label.carrierAIDC,
      carrierHRF: label.carrierHRF ?? label.text,
      entryType: label.carrierAIDC === undefined ? 'manual' : 'barcode',
    };
  if (di === undefined) return undefined;
  return {
    deviceIdentifier: di,
    issuer: GTIN.test(di) ? (options.issuerUris?.gs1 ?? GS1) : undefined,
    jurisdiction,
    entryType: 'manual',
  };
}

const GS1 = 'http://hl7.org/fhir/NamingSystem/gs1-di';

function issuerUri(label: DecodedLabel, uris: IssuerUris | undefined): string | undefined {
  if (!uris) return label.issuerUri;
  if (label.issuer === 'gs1') return uris.gs1;
  if (label.issuer === 'hibcc') return uris.hibcc;
  // Blood containers have a device identifier of 10 characters, everything else of 16.
  return label.di?.length === 10 ? uris.iccbbaBlood : uris.iccbbaOther;
}
