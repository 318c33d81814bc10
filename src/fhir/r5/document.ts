import {
  asList,
  attachment,
  coded,
  concepts,
  type Fields,
  fields,
  listOf,
  type Step,
  same,
  type TypeTable,
  withoutAbsent,
} from './steps.js';

const VERSION_NUMBER = 'http://hl7.org/fhir/StructureDefinition/composition-clinicaldocument-versionNumber';

const attester: Step = value => ({
  set: {
    attester: listOf(value).map(item => {
      const { mode, ...rest } = fields(item);
      return { mode: coded('http://hl7.org/fhir/composition-attestation-mode', mode), ...rest };
    }),
  },
});

/** What a Composition relates to: R5 names it as a related artifact. */
function artifact(item: unknown): Fields {
  const { code, targetIdentifier, targetReference } = fields(item);
  return withoutAbsent({
    type: code,
    resourceReference: targetReference ?? (targetIdentifier && { identifier: targetIdentifier }),
  });
}

export const documentTables: Readonly<Record<string, TypeTable>> = {
  Composition: {
    type: 'Composition',
    elements: {
      ...same('status', 'type', 'category', 'encounter', 'date', 'author', 'title', 'custodian', 'section'),
      // R5 has an element for the version number.
      extension: value => {
        const all = listOf(value).map(fields);
        const number = all.find(({ url }) => url === VERSION_NUMBER)?.['valueString'];
        const rest = all.filter(({ url }) => url !== VERSION_NUMBER);
        return { set: withoutAbsent({ version: number, extension: rest.length > 0 ? rest : undefined }) };
      },
      identifier: asList('identifier'),
      subject: asList('subject'),
      attester,
      confidentiality: { lost: 'confidentiality, which R5 keeps in meta.security' },
      relatesTo: value => ({ set: { relatesTo: listOf(value).map(artifact) } }),
      event: value => ({
        set: {
          event: listOf(value).map(item => {
            const { code, period, detail } = fields(item);
            const details = [
              ...listOf(code).map(concept => ({ concept })),
              ...listOf(detail).map(reference => ({ reference })),
            ];
            return withoutAbsent({ period, detail: details.length > 0 ? details : undefined });
          }),
        },
      }),
    },
  },
  DocumentReference: {
    type: 'DocumentReference',
    elements: {
      ...same('identifier', 'status', 'docStatus', 'type', 'category', 'subject', 'date', 'author'),
      ...same('custodian', 'description', 'securityLabel'),
      masterIdentifier: asList('identifier'),
      authenticator: party => ({
        set: {
          attester: [{ mode: coded('http://hl7.org/fhir/composition-attestation-mode', 'official'), party }],
        },
      }),
      relatesTo: value => ({
        set: {
          relatesTo: listOf(value).map(item => {
            const { code, ...rest } = fields(item);
            return { code: coded('http://hl7.org/fhir/document-relationship-type', code), ...rest };
          }),
        },
      }),
      content: value => ({
        set: {
          content: listOf(value).map(item => {
            const { attachment: file, format, ...rest } = fields(item);
            const profile = format === undefined ? {} : { profile: [{ valueCoding: format }] };
            return { ...rest, attachment: attachment(file), ...profile };
          }),
        },
      }),
      // R5 has no list of related resources: what was done and looked at is an event of the document.
      context: value => {
        const { encounter, event, period, facilityType, practiceSetting, related, sourcePatientInfo } =
          fields(value);
        const events = [
          ...listOf(event).map(concept => ({ concept })),
          ...listOf(related).map(reference => ({ reference })),
        ];
        return {
          set: withoutAbsent({
            context: encounter,
            event: events.length > 0 ? events : undefined,
            period,
            facilityType,
            practiceSetting,
          }),
          ...(sourcePatientInfo !== undefined && { lost: 'the patient data at the source' }),
        };
      },
    },
  },
  DiagnosticReport: {
    type: 'DiagnosticReport',
    elements: {
      ...same('identifier', 'basedOn', 'status', 'category', 'code', 'subject', 'encounter', 'effective[x]'),
      ...same(
        'issued',
        'performer',
        'resultsInterpreter',
        'specimen',
        'result',
        'conclusion',
        'conclusionCode',
      ),
      imagingStudy: { to: 'study' },
      media: { lost: 'pictures as Media, a type that R5 has not' },
      presentedForm: value => ({ set: { presentedForm: listOf(value).map(attachment) } }),
    },
  },
  Provenance: {
    type: 'Provenance',
    elements: {
      ...same('target', 'occurred[x]', 'recorded', 'policy', 'location', 'activity', 'agent', 'signature'),
      reason: concepts('authorization'),
      entity: value => ({
        set: {
          entity: listOf(value).map(item => {
            const { role, ...rest } = fields(item);
            // R5 has no 'derivation': its source is what something was derived from.
            return { role: role === 'derivation' ? 'source' : role, ...rest };
          }),
        },
      }),
    },
  },
  Patient: {
    type: 'Patient',
    elements: {
      ...same(
        ...['identifier', 'active', 'name', 'telecom', 'gender', 'birthDate', 'deceased[x]', 'address'],
        ...['maritalStatus', 'multipleBirth[x]', 'contact', 'communication', 'generalPractitioner'],
        ...['managingOrganization', 'link'],
      ),
      photo: value => ({ set: { photo: listOf(value).map(attachment) } }),
    },
  },
  Practitioner: {
    type: 'Practitioner',
    elements: {
      ...same('identifier', 'active', 'name', 'telecom', 'address', 'gender', 'birthDate', 'qualification'),
      photo: value => ({ set: { photo: listOf(value).map(attachment) } }),
      communication: value => ({
        set: { communication: listOf(value).map(language => ({ language })) },
      }),
    },
  },
  PractitionerRole: {
    type: 'PractitionerRole',
    elements: {
      ...same('identifier', 'active', 'period', 'practitioner', 'organization', 'code', 'specialty'),
      ...same('location', 'healthcareService', 'endpoint'),
      telecom: telecom => ({ set: { contact: [{ telecom }] } }),
      availableTime: { lost: 'hours, which R5 writes otherwise' },
      notAvailable: { lost: 'hours, which R5 writes otherwise' },
      availabilityExceptions: { lost: 'hours, which R5 writes otherwise' },
    },
  },
  Organization: {
    type: 'Organization',
    elements: {
      ...same('identifier', 'active', 'type', 'name', 'alias', 'partOf', 'endpoint'),
      telecom: telecom => ({ set: { contact: [{ telecom }] } }),
      address: value => ({ set: { contact: listOf(value).map(address => ({ address })) } }),
      contact: value => ({
        set: {
          contact: listOf(value).map(item => {
            const { name, ...rest } = fields(item);
            return { ...rest, ...(name !== undefined && { name: [name] }) };
          }),
        },
      }),
    },
  },
  Location: {
    type: 'Location',
    elements: {
      ...same('identifier', 'status', 'operationalStatus', 'name', 'alias', 'description', 'mode', 'type'),
      ...same('address', 'position', 'managingOrganization', 'partOf', 'endpoint'),
      telecom: telecom => ({ set: { contact: [{ telecom }] } }),
      physicalType: { to: 'form' },
      hoursOfOperation: { lost: 'hours, which R5 writes otherwise' },
      availabilityExceptions: { lost: 'hours, which R5 writes otherwise' },
    },
  },
};
