import type { CodeableConcept, DeviceProperty } from 'fhir/r4.js';
import type { DeviceDetails } from '../../devices/types.js';
import type { Quantity } from '../../record/quantity.js';
import { dimensionCodes } from '../codes/devices.js';
import type { KnownCode } from '../codes/types.js';
import { knownConcept } from '../concept.js';
import { countOf, quantityOf } from '../quantity.js';

/** Sizes and other properties of a device, with the digits as written. */
export function propertiesOf(details: DeviceDetails): DeviceProperty[] {
  const { entry, size } = details;
  const diameter = details.diameter ?? size?.diameter;
  const length = details.length ?? size?.length;
  return [
    ...worded('Size', size?.text),
    ...quantity('Diameter', diameter, dimension(details, diameter)),
    ...(size && size.diameter !== diameter ? quantity('Nominal diameter', size.diameter) : []),
    ...quantity('Largest diameter', size?.upTo),
    ...quantity('Length', length),
    ...(size?.length && size.length !== length ? quantity('Nominal length', size.length) : []),
    ...quantity('Takes a wire up to', entry.takesWire),
    ...quantity('Takes a device up to', entry.takes),
    ...quantity('Rated pressure', entry.ratedPressure),
    ...worded('Family', details.family),
    ...worded('Material', entry.material),
    ...worded('Concentration', entry.concentration),
    ...worded('Implant', details.implant ? 'yes' : entry.implant === false ? 'no' : undefined),
    ...(details.count === 1
      ? []
      : [{ type: named('Number alike'), valueQuantity: [countOf(details.count)] }]),
  ];
}

function dimension(details: DeviceDetails, diameter: Quantity | undefined): KnownCode | undefined {
  if (details.family === 'needle' && diameter?.code === '{gauge}') return dimensionCodes.needleGauge;
  return details.family === 'catheter' || details.family === 'drain'
    ? dimensionCodes.catheterSize
    : undefined;
}

function named(text: string, known?: KnownCode): CodeableConcept {
  return known ? knownConcept(known, text) : { text };
}

function quantity(text: string, value: Quantity | undefined, known?: KnownCode): DeviceProperty[] {
  return value ? [{ type: named(text, known), valueQuantity: [quantityOf(value)] }] : [];
}

function worded(text: string, value: string | undefined): DeviceProperty[] {
  return value === undefined ? [] : [{ type: named(text), valueCode: [{ text: value }] }];
}
