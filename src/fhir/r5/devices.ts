import { asList, concepts, type Fields, fields, listOf, references, same, type TypeTable } from './steps.js';

const ABSENT = 'http://hl7.org/fhir/StructureDefinition/data-absent-reason';
const unknownValue: Fields = { extension: [{ url: ABSENT, valueCode: 'unknown' }] };

/** R5 splits a property with several values into several properties. */
function properties(value: unknown): Fields[] {
  return listOf(value).flatMap(property => {
    const { valueQuantity, valueCode, ...rest } = fields(property);
    const quantities = listOf(valueQuantity).map(quantity => ({ ...rest, valueQuantity: quantity }));
    const codes = listOf(valueCode).map(concept => ({ ...rest, valueCodeableConcept: concept }));
    return [...quantities, ...codes];
  });
}

/** The issuer, which R5 requires: said to be unknown when the label did not tell it. */
function carrier(value: unknown): { carrier?: Fields; lost?: string } {
  const udi = fields(value);
  if (udi['deviceIdentifier'] === undefined) return { lost: 'a UDI carrier without device identifier' };
  return { carrier: { ...udi, ...(udi['issuer'] === undefined && { _issuer: unknownValue }) } };
}

/** R5 knows fewer kinds of names; a model name stands in modelNumber too. */
const NAME_TYPES: Readonly<Record<string, string>> = {
  'user-friendly-name': 'user-friendly-name',
  'patient-reported-name': 'patient-reported-name',
  'udi-label-name': 'registered-name',
  'manufacturer-name': 'registered-name',
};

export const deviceTables: Readonly<Record<string, TypeTable>> = {
  Device: {
    type: 'Device',
    elements: {
      ...same(
        ...['identifier', 'manufacturer', 'manufactureDate', 'expirationDate', 'lotNumber', 'serialNumber'],
        ...['modelNumber', 'partNumber', 'owner', 'contact', 'location', 'url', 'note', 'safety', 'parent'],
        'version',
      ),
      udiCarrier: value => {
        const carriers = listOf(value).map(carrier);
        const kept = carriers.flatMap(item => item.carrier ?? []);
        const lost = carriers.find(item => item.lost !== undefined)?.lost;
        return {
          ...(kept.length > 0 && { set: { udiCarrier: kept } }),
          ...(lost !== undefined && { lost }),
        };
      },
      status: value =>
        value === 'unknown'
          ? { set: { _status: unknownValue }, lost: 'the status unknown, written as absent data' }
          : { set: { status: value } },
      statusReason: { lost: 'R5 has no reason for the status of a device' },
      distinctIdentifier: value => ({ set: { biologicalSourceEvent: { value } } }),
      deviceName: (value, { modelNumber }) => {
        const named = listOf(value).map(fields);
        const name = named.flatMap(({ name: text, type }) => {
          const kind = NAME_TYPES[String(type)];
          return kind === undefined ? [] : [{ value: text, type: kind }];
        });
        const dropped = named.filter(
          ({ name: text, type }) => NAME_TYPES[String(type)] === undefined && text !== modelNumber,
        );
        return {
          ...(name.length > 0 && { set: { name } }),
          ...(dropped.length > 0 && { lost: 'a name of a kind that R5 does not have' }),
        };
      },
      type: asList('type'),
      property: value => ({ set: { property: properties(value) } }),
      patient: { lost: 'R5 ties devices to patients by their use; the DeviceUsage names the patient' },
    },
  },
  DeviceUseStatement: {
    type: 'DeviceUsage',
    elements: {
      ...same('identifier', 'basedOn', 'status', 'derivedFrom', 'timing[x]', 'note'),
      subject: { to: 'patient' },
      recordedOn: { to: 'dateAsserted' },
      source: { to: 'informationSource' },
      device: value => ({ set: { device: { reference: value } } }),
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
      bodySite: value => ({ set: { bodySite: { concept: value } } }),
    },
  },
};
