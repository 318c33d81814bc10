import {
  attachment,
  coded,
  concepts,
  type Fields,
  fields,
  listOf,
  oneConcept,
  oneReference,
  references,
  same,
  type TypeTable,
  withoutAbsent,
} from './steps.js';

const CLINICAL = 'http://terminology.hl7.org/CodeSystem/condition-clinical';

/** Who recorded and who asserted, as R5 participants. Source: FHIR R5, participation role types. */
const participant = (code: string) => (actor: unknown) => ({
  set: {
    participant: [
      { function: coded('http://terminology.hl7.org/CodeSystem/provenance-participant-type', code), actor },
    ],
  },
});

/** What was found, wanted and given. A container needs a Device in R5; it is named by its description. */
export const clinicalTables: Readonly<Record<string, TypeTable>> = {
  AdverseEvent: {
    type: 'AdverseEvent',
    elements: {
      status: 'same',
      ...same('actuality', 'category', 'subject', 'encounter', 'detected', 'recordedDate', 'location'),
      ...same('seriousness', 'recorder', 'referenceDocument', 'study'),
      identifier: value => ({ set: { identifier: [value] } }),
      event: { to: 'code' },
      date: { to: 'occurrenceDateTime' },
      resultingCondition: { to: 'resultingEffect' },
      severity: { lost: 'the severity, which R5 keeps with the effect' },
      outcome: value => ({ set: { outcome: [value] } }),
      contributor: value => ({ set: { participant: listOf(value).map(actor => ({ actor })) } }),
      suspectEntity: value => ({
        set: {
          suspectEntity: listOf(value).map(item => ({ instanceReference: fields(item)['instance'] })),
        },
      }),
      subjectMedicalHistory: value => ({
        set: { supportingInfo: listOf(value).map(item => ({ itemReference: item })) },
      }),
    },
  },
  AllergyIntolerance: {
    type: 'AllergyIntolerance',
    elements: {
      ...same('identifier', 'clinicalStatus', 'verificationStatus', 'category', 'criticality', 'code'),
      ...same('patient', 'encounter', 'onset[x]', 'recordedDate', 'lastOccurrence', 'note'),
      type: value => ({
        set: { type: coded('http://hl7.org/fhir/allergy-intolerance-type', value) },
      }),
      recorder: participant('enterer'),
      asserter: participant('author'),
      reaction: value => ({
        set: {
          reaction: listOf(value).map(item => {
            const { manifestation, ...rest } = fields(item);
            return { ...rest, manifestation: listOf(manifestation).map(concept => ({ concept })) };
          }),
        },
      }),
    },
  },
  BodyStructure: {
    type: 'BodyStructure',
    elements: {
      ...same('identifier', 'active', 'morphology', 'description', 'image', 'patient'),
      location: (value, { locationQualifier }) => ({
        set: {
          includedStructure: [withoutAbsent({ structure: value, qualifier: locationQualifier })],
        },
      }),
      locationQualifier: (_value, { location }) =>
        location === undefined ? { lost: 'a qualifier without a location' } : {},
    },
  },
  Condition: {
    type: 'Condition',
    elements: {
      ...same('identifier', 'clinicalStatus', 'verificationStatus', 'category', 'severity', 'code'),
      ...same(
        'bodySite',
        'subject',
        'encounter',
        'onset[x]',
        'abatement[x]',
        'recordedDate',
        'stage',
        'note',
      ),
      recorder: participant('enterer'),
      asserter: participant('author'),
      evidence: value => ({
        set: {
          evidence: listOf(value).flatMap(item => {
            const { code, detail } = fields(item);
            return [
              ...listOf(code).map(concept => ({ concept })),
              ...listOf(detail).map(reference => ({ reference })),
            ];
          }),
        },
      }),
    },
  },
  Consent: {
    type: 'Consent',
    elements: {
      ...same('identifier', 'status', 'category', 'sourceReference'),
      scope: value => ({ set: { category: [value] } }),
      patient: { to: 'subject' },
      dateTime: value => {
        const day = String(value).slice(0, 10);
        return {
          set: { date: day },
          ...(day !== String(value) && { lost: 'the time of day, for R5 keeps the day alone' }),
        };
      },
      performer: { to: 'grantor' },
      organization: { to: 'manager' },
      sourceAttachment: value => ({ set: { sourceAttachment: [attachment(value)] } }),
      policy: { lost: 'the policy that was agreed to, which R5 words otherwise' },
      policyRule: value => ({ set: { regulatoryBasis: [value] } }),
      verification: value => ({
        set: {
          verification: listOf(value).map(item => {
            const { verificationDate, ...rest } = fields(item);
            return {
              ...rest,
              ...(verificationDate !== undefined && { verificationDate: [verificationDate] }),
            };
          }),
        },
      }),
      provision: value => {
        const { type, ...rest } = fields(value);
        return {
          set: {
            ...(type !== undefined && { decision: type }),
            ...(Object.keys(rest).length > 0 && { provision: [rest] }),
          },
        };
      },
    },
  },
  Observation: {
    type: 'Observation',
    elements: {
      ...same(
        ...['identifier', 'basedOn', 'partOf', 'status', 'category', 'code', 'subject', 'focus', 'encounter'],
        ...['effective[x]', 'issued', 'performer', 'value[x]', 'dataAbsentReason', 'interpretation', 'note'],
        ...['bodySite', 'method', 'specimen', 'device', 'referenceRange', 'hasMember', 'derivedFrom'],
        'component',
      ),
    },
  },
  Specimen: {
    type: 'Specimen',
    elements: {
      ...same('identifier', 'accessionIdentifier', 'status', 'type', 'subject', 'receivedTime', 'parent'),
      ...same('request', 'condition', 'note'),
      collection: value => {
        const { bodySite, ...rest } = fields(value);
        const site = bodySite === undefined ? {} : { bodySite: { concept: bodySite } };
        return { set: { collection: { ...rest, ...site } } };
      },
      processing: value => ({
        set: {
          processing: listOf(value).map(item => {
            const { procedure, ...rest } = fields(item);
            return { ...rest, ...(procedure !== undefined && { method: procedure }) };
          }),
        },
      }),
      container: value => {
        const all = listOf(value).map(fields);
        return {
          set: {
            container: all.map(({ description, specimenQuantity, type }) => ({
              device: { display: description ?? fields(type)['text'] ?? 'container' },
              ...(specimenQuantity !== undefined && { specimenQuantity }),
            })),
          },
          ...(all.some(c => c['capacity'] !== undefined || c['additiveCodeableConcept'] !== undefined) && {
            lost: 'capacity and additive, which R5 keeps in a Device',
          }),
        };
      },
    },
  },
  MedicationAdministration: {
    type: 'MedicationAdministration',
    elements: {
      ...same('identifier', 'partOf', 'status', 'statusReason', 'subject', 'supportingInformation'),
      ...same('request', 'note', 'dosage', 'eventHistory'),
      category: value => ({ set: { category: [value] } }),
      medicationCodeableConcept: oneConcept('medication'),
      medicationReference: oneReference('medication'),
      context: { to: 'encounter' },
      // R5 5.0.0 spells it so.
      'effective[x]': { to: 'occurence[x]' },
      performer: value => ({
        set: {
          performer: listOf(value).map(item => {
            const { actor, ...rest } = fields(item);
            return { ...rest, actor: { reference: actor } };
          }),
        },
      }),
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
      device: references('device'),
    },
  },
  Medication: {
    type: 'Medication',
    elements: {
      ...same('identifier', 'code', 'status', 'batch'),
      manufacturer: { to: 'marketingAuthorizationHolder' },
      form: { to: 'doseForm' },
      amount: { lost: 'the amount of a package, which R5 has as a volume alone' },
      ingredient: value => ({
        set: {
          ingredient: listOf(value).map(item => {
            const { itemCodeableConcept, itemReference, strength, ...rest } = fields(item);
            return withoutAbsent({
              item: withoutAbsent({ concept: itemCodeableConcept, reference: itemReference }),
              ...rest,
              strengthRatio: strength,
            });
          }),
        },
      }),
    },
  },
  MedicationStatement: {
    type: 'MedicationStatement',
    elements: {
      ...same('identifier', 'subject', 'effective[x]', 'dateAsserted', 'derivedFrom', 'note', 'dosage'),
      partOf: 'same',
      // R5 says apart whether it was recorded and whether the drug is taken.
      status: value => {
        const adherence = ADHERENCE[String(value)];
        const status = value === 'entered-in-error' ? value : 'recorded';
        return {
          set: {
            status,
            ...(adherence !== undefined && {
              adherence: {
                code: coded('http://hl7.org/fhir/CodeSystem/medication-statement-adherence', adherence),
              },
            }),
          },
          ...(adherence === undefined &&
            status === 'recorded' && { lost: `the status ${String(value)}, which R5 does not have` }),
        };
      },
      statusReason: { lost: 'the reason for the status' },
      category: value => ({ set: { category: [value] } }),
      medicationCodeableConcept: oneConcept('medication'),
      medicationReference: oneReference('medication'),
      context: { to: 'encounter' },
      informationSource: value => ({ set: { informationSource: [value] } }),
      basedOn: { lost: 'what it is based on' },
      reasonCode: concepts('reason'),
      reasonReference: references('reason'),
    },
  },
};

/** Source: FHIR R5, CodeSystem medication-statement-adherence; from the states of R4 with the same meaning. */
const ADHERENCE: Readonly<Record<string, string>> = {
  active: 'taking',
  'not-taken': 'not-taking',
  stopped: 'stopped',
  'on-hold': 'on-hold',
  unknown: 'unknown',
};

/**
 * What R5 requires and R4 has not, by type. A condition without clinical status has one that is not known; an adverse
 * event has been recorded whole.
 */
export const clinicalDefaults: Readonly<Record<string, Fields>> = {
  Condition: { clinicalStatus: coded(CLINICAL, 'unknown') },
  AdverseEvent: { status: 'completed' },
};
