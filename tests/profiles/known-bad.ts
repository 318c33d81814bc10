/** FHIR JSON that is spoilt on purpose. */
// biome-ignore lint/suspicious/noExplicitAny: the resources are made wrong in places that no type allows
type Loose = any;

export interface KnownBad {
  readonly profile: string;
  readonly what: string;
  /** Rule of the validator, or key of the invariant. */
  readonly rule: string;
  /** Where it is to be found: the start of the path, or of the element of the profile that says so. */
  readonly at: string;
  readonly spoil: (resource: Loose) => void;
}

const bad = (
  profile: string,
  what: string,
  rule: string,
  at: string,
  spoil: (r: Loose) => void,
): KnownBad => ({
  profile,
  what,
  rule,
  at,
  spoil,
});

/** What no device may be, in the patient or in the room. @param key how the keys of its rules begin */
const ofDevice = (profile: string, key: string): KnownBad[] => [
  bad(profile, 'no name for people', 'min', 'Device', r => {
    for (const name of r.deviceName) name.type = 'manufacturer-name';
  }),
  bad(profile, 'an empty carrier', `${key}-1`, 'Device', r => {
    r.udiCarrier = [{ entryType: 'manual', issuer: 'http://hl7.org/fhir/NamingSystem/gs1-di' }];
  }),
  bad(profile, 'scanned bytes that were typed', `${key}-2`, 'Device', r => {
    r.udiCarrier = [{ entryType: 'manual', deviceIdentifier: '09506000117843', carrierAIDC: 'MDE=' }];
  }),
  bad(profile, 'a size without a value', `${key}-3`, 'Device', r => {
    r.property = [{ type: { text: 'Length' } }];
  }),
];

const sectionOf = (report: Loose, code: string): Loose =>
  report.section.find((s: Loose) => s.code.coding?.[0].code === code);
const without = (report: Loose, code: string) => {
  report.section = report.section.filter((s: Loose) => s.code.coding?.[0].code !== code);
};

const noDay = {
  url: 'http://hl7.org/fhir/StructureDefinition/data-absent-reason',
  valueCode: 'unknown',
};

/** One broken promise each, made from the example of the profile. */
export const knownBad: readonly KnownBad[] = [
  bad('procedure-report', 'no section on what stays inside', 'min', 'Composition', r =>
    without(r, '59771-6'),
  ),
  bad('procedure-report', 'no section on complications', 'min', 'Composition', r => without(r, '55109-3')),
  bad('procedure-report', 'two sections on devices', 'max', 'Composition.section', r =>
    r.section.push(sectionOf(r, '46264-8')),
  ),
  bad('procedure-report', 'a section without words', 'min', 'Composition.section', r => {
    delete r.section[3].text;
  }),
  bad('procedure-report', 'an unsigned final report', 'ct-report-1', 'Composition', r => {
    r.status = 'final';
    delete r.attester;
  }),
  bad('procedure-report', 'an amended report that follows nothing', 'ct-report-2', 'Composition', r => {
    r.status = 'amended';
    delete r.relatesTo;
  }),
  bad('procedure-report', 'an empty list without its reason', 'ct-report-3', 'Composition', r => {
    const section = sectionOf(r, '55109-3');
    delete section.entry;
    delete section.emptyReason;
  }),
  bad('procedure-report', 'no version number', 'min', 'Composition', r => {
    delete r.extension;
  }),
  bad('procedure-report', 'no patient', 'min', 'Composition', r => {
    delete r.subject;
  }),
  bad('procedure-report-document', 'a collection', 'fixed', 'Bundle.type', r => {
    r.type = 'collection';
  }),
  bad('procedure-report-document', 'two procedures that are the case', 'ct-document-1', 'Bundle', r => {
    const parts = r.entry.filter((e: Loose) => e.resource.partOf && e.resource.resourceType === 'Procedure');
    delete parts[0].resource.partOf;
  }),
  bad('procedure-report-document', 'a report on one component only', 'ct-document-2', 'Bundle', r => {
    const part = r.entry.find((e: Loose) => e.resource.partOf && e.resource.resourceType === 'Procedure');
    r.entry[0].resource.event[0].detail[0].reference = part.fullUrl;
  }),
  bad('procedure-report-document', 'two patients', 'max', 'Bundle.entry', r => {
    const patient = r.entry.find((e: Loose) => e.resource.resourceType === 'Patient');
    r.entry.push({ ...patient, fullUrl: 'urn:uuid:3f0cb4f3-8f7e-4a0e-9d52-0d4b7a1f3a11' });
  }),
  bad('case-procedure', 'part of another procedure', 'max', 'Procedure.partOf', r => {
    r.partOf = [{ reference: 'Procedure/another' }];
  }),
  bad('case-procedure', 'stopped without a reason', 'ct-procedure-2', 'Procedure', r => {
    r.status = 'stopped';
    delete r.statusReason;
  }),
  bad('case-procedure', 'still going on', 'binding-required', 'Procedure.status', r => {
    r.status = 'in-progress';
  }),
  bad('case-procedure', 'a device both placed and used as a tool', 'ct-procedure-1', 'Procedure', r => {
    r.usedReference = [{ reference: r.focalDevice[0].manipulated.reference }];
  }),
  bad('case-procedure', 'a complication without its Condition', 'ct-procedure-3', 'Procedure', r => {
    r.complication = [{ text: 'Bleeding' }];
    delete r.complicationDetail;
  }),
  bad('case-procedure', 'no time (a rule of the patient summary)', 'min', 'Procedure', r => {
    delete r.performedPeriod;
  }),
  bad('component-procedure', 'part of nothing', 'min', 'Procedure', r => {
    delete r.partOf;
  }),
  bad('component-procedure', 'with the complications of the case', 'max', 'Procedure.complication', r => {
    r.complication = [{ text: 'Bleeding' }];
  }),
  bad('component-procedure', 'stopped and said to be successful', 'ct-component-1', 'Procedure', r => {
    r.status = 'stopped';
    r.statusReason = { text: 'Tried, and not achieved' };
    r.outcome = { coding: [{ system: 'http://snomed.info/sct', code: '385669000' }], text: 'successful' };
  }),
  bad(
    'component-procedure',
    'a device handled in an unknown way',
    'binding-required',
    'Procedure.focalDevice',
    r => {
      r.focalDevice[0].action = {
        coding: [{ system: 'http://hl7.org/fhir/device-action', code: 'admired' }],
      };
    },
  ),
  ...ofDevice('case-device', 'ct-device'),
  ...ofDevice('used-device', 'ct-used-device'),
  bad('case-device', 'nobody’s device', 'min', 'Device', r => {
    delete r.patient;
  }),
  bad('used-device', 'a patient’s device', 'max', 'Device', r => {
    r.patient = { display: 'Somebody' };
  }),
  bad('device-use', 'inside, and ended', 'ct-use-1', 'DeviceUseStatement', r => {
    r.status = 'active';
    r.timingPeriod = { start: '2024-01-01', end: '2024-01-02' };
  }),
  bad('device-use', 'from no procedure', 'min', 'DeviceUseStatement', r => {
    delete r.derivedFrom;
  }),
  bad('device-use', 'no time (a rule of the patient summary)', 'min', 'DeviceUseStatement', r => {
    delete r.timingPeriod;
  }),
  bad('aftercare-plan', 'an order', 'binding-required', 'CarePlan.intent', r => {
    r.intent = 'order';
  }),
  bad('aftercare-plan', 'nothing to do and nothing to say', 'ct-aftercare-1', 'CarePlan', r => {
    delete r.activity;
    delete r.note;
  }),
  bad('aftercare-item', 'a draft', 'binding-required', 'ServiceRequest.status', r => {
    r.status = 'draft';
  }),
  bad('aftercare-item', 'an order', 'binding-required', 'ServiceRequest.intent', r => {
    r.intent = 'order';
  }),
  bad('aftercare-item', 'done by nobody', 'min', 'ServiceRequest', r => {
    delete r.performerType;
  }),
  bad('aftercare-item', 'something not to do', 'max', 'ServiceRequest.doNotPerform', r => {
    r.doNotPerform = true;
  }),
  bad('aftercare-task', 'a draft', 'binding-required', 'Task.status', r => {
    r.status = 'draft';
  }),
  bad('aftercare-task', 'an order', 'binding-required', 'Task.intent', r => {
    r.intent = 'order';
  }),
  bad('aftercare-task', 'another item in focus than it is based on', 'ct-task-1', 'Task', r => {
    r.focus.reference = 'ServiceRequest/another';
  }),
  bad('aftercare-task', 'no day', 'ct-task-2', 'Task', r => {
    r.restriction.period = { extension: [noDay] };
  }),
  bad('aftercare-task', 'no span', 'min', 'Task', r => {
    delete r.restriction;
  }),
  bad('aftercare-task', 'a Task of another kind', 'pattern', 'Task.code', r => {
    r.code.coding[0].code = 'abort';
    r.code.coding[0].display = 'Mark the focal resource as no longer active';
  }),
  bad('aftercare-task', 'done by nobody', 'min', 'Task', r => {
    delete r.performerType;
  }),
  bad('aftercare-task', 'a result', 'max', 'Task.output', r => {
    r.output = [{ type: { text: 'Result' }, valueString: 'taken out' }];
  }),
  bad('dose-summary', 'another code', 'pattern', 'Observation.code', r => {
    r.code.coding[0].code = '18748-4';
  }),
  bad('dose-summary', 'nothing said', 'min', 'Observation', r => {
    delete r.valueString;
  }),
  bad('dose-figure', 'a dose area product in gray', 'ct-dose-1', 'Observation', r => {
    r.valueQuantity.code = 'Gy';
  }),
  bad('dose-figure', 'a dose at the reference point in seconds', 'ct-dose-2', 'Observation', r => {
    r.code.coding[0] = { system: r.code.coding[0].system, code: '113725', display: 'Dose (RP) Total' };
    r.valueQuantity.code = 's';
  }),
  bad(
    'dose-figure',
    'a dose length product in the unit of an area product',
    'ct-dose-3',
    'Observation',
    r => {
      const { system } = r.code.coding[0];
      r.code.coding[0] = { system, code: '113813', display: 'CT Dose Length Product Total' };
      r.valueQuantity.code = 'mGy.cm2';
    },
  ),
  bad('dose-figure', 'a CT dose index in the unit of its product', 'ct-dose-4', 'Observation', r => {
    r.code.coding[0] = { system: r.code.coding[0].system, code: '113830', display: 'Mean CTDIvol' };
    r.valueQuantity.code = 'mGy.cm';
  }),
  bad('dose-figure', 'a unit outside UCUM', 'fixed', 'Observation.value', r => {
    r.valueQuantity.system = 'http://units.example.org';
  }),
  bad('dose-figure', 'not final', 'binding-required', 'Observation.status', r => {
    r.status = 'preliminary';
  }),
  bad('dose-earlier', 'part of this case', 'max', 'Observation.partOf', r => {
    r.partOf = [{ reference: 'Procedure/this' }];
  }),
  bad('dose-earlier', 'a figure without a value', 'min', 'Observation.component', r => {
    delete r.component[0].valueQuantity;
  }),
  bad('contrast-given', 'not given', 'binding-required', 'MedicationAdministration.status', r => {
    r.status = 'not-done';
  }),
  bad('contrast-given', 'an agent without a name', 'ct-contrast-1', 'MedicationAdministration', r => {
    delete r.medicationCodeableConcept?.text;
    delete r.medicationReference?.display;
  }),
  bad('contrast-given', 'no volume', 'min', 'MedicationAdministration.dosage', r => {
    delete r.dosage.dose;
  }),
  bad('contrast-given', 'given for another reason', 'pattern', 'MedicationAdministration.reasonCode', r => {
    r.reasonCode = [{ text: 'pain' }];
  }),
  bad('worked-out', 'taken for a final result', 'binding-required', 'Observation.status', r => {
    r.status = 'final';
  }),
  bad('worked-out', 'made by a person', 'max', 'Observation.performer', r => {
    r.performer = [{ reference: 'Practitioner/someone' }];
  }),
  bad('worked-out', 'no rule', 'min', 'Observation', r => {
    delete r.method;
  }),
  bad('worked-out', 'no inputs and no source', 'min', 'Observation', r => {
    delete r.note;
  }),
  bad('report-document-reference', 'no hash', 'min', 'DocumentReference.content', r => {
    delete r.content[0].attachment.hash;
  }),
  bad('report-document-reference', 'withdrawn by half', 'ct-rendered-1', 'DocumentReference', r => {
    r.docStatus = 'entered-in-error';
  }),
  bad('registry-entry', 'a reference out of the entry', 'ct-registry-1', 'DeviceUseStatement', r => {
    r.derivedFrom[0].reference = 'Procedure/of-the-hospital';
  }),
  bad('registry-entry', 'words about the patient', 'max', 'DeviceUseStatement.note', r => {
    r.note = [{ text: 'The patient lives at the harbour' }];
  }),
  bad(
    'registry-entry',
    'an action that the register does not have',
    'binding-required',
    'DeviceUseStatement.reasonCode',
    r => {
      r.reasonCode[0].coding[0].code = 'admired';
    },
  ),
  bad('registry-patient', 'a name', 'max', 'DeviceUseStatement.contained', r => {
    contained(r, 'Patient').name = [{ text: 'Vela Quintanar' }];
  }),
  bad('registry-patient', 'a day of birth', 'max', 'DeviceUseStatement.contained', r => {
    contained(r, 'Patient').birthDate = '1957-08-02';
  }),
  bad('registry-device', 'the scanned label', 'max', 'DeviceUseStatement.contained', r => {
    contained(r, 'Device').udiCarrier[0].carrierHRF = '(01)09506000117843(21)S1';
  }),
  bad('registry-device', 'an unknown family', 'binding-required', 'DeviceUseStatement.contained', r => {
    contained(r, 'Device').type.coding[0].code = 'toy';
  }),
  bad('registry-procedure', 'a note', 'max', 'DeviceUseStatement.contained', r => {
    contained(r, 'Procedure').note = [{ text: 'Seen with her brother' }];
  }),
  bad('registry-procedure', 'a grade of no scale', 'binding-required', 'DeviceUseStatement.contained', r => {
    const system = 'https://casetally.example/fhir/CodeSystem/adverse-event-scale';
    contained(r, 'Procedure').complication = [{ coding: [{ system, code: 'SIR-2017-IIIa' }] }];
  }),
  bad('age-group', 'a year over 89', 'ct-age-1', 'DeviceUseStatement.contained', r => {
    contained(r, 'Patient').extension[0].valueString = '104';
  }),
  bad('registry-entry', 'an implant without a time', 'ct-registry-2', 'DeviceUseStatement', r => {
    delete r.timingPeriod;
  }),
  bad('registry-procedure', 'no word of complications', 'min', 'DeviceUseStatement.contained', r => {
    delete contained(r, 'Procedure').extension;
  }),
  bad('complications', 'an answer that is none', 'binding-required', 'DeviceUseStatement.contained', r => {
    contained(r, 'Procedure').extension[0].valueCode = 'perhaps';
  }),
  bad('also-done', 'a kind of nobody', 'binding-required', 'DeviceUseStatement.contained', r => {
    const coding = { ...contained(r, 'Procedure').code.coding[0], code: 'haircut' };
    contained(r, 'Procedure').extension.push({ url: own('also-done'), valueCoding: coding });
  }),
  bad('part-of-device', 'without a value', 'min', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('part-of-device') }];
  }),
  bad('entry-version', 'a version in words', 'choice-type', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('entry-version'), valueString: 'first' }];
  }),
  bad('placed-entry', 'a number without its system', 'min', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('placed-entry'), valueIdentifier: { value: 'k1.1' } }];
  }),
  bad('dwell-days', 'days in words', 'choice-type', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('dwell-days'), valueString: 'twelve' }];
  }),
  bad('removal-reason', 'a reason in words', 'binding-required', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('removal-reason'), valueCode: 'patient-asked' }];
  }),
  bad('next-review', 'without a value', 'min', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('next-review') }];
  }),
  bad('site-side', 'a side that is none', 'binding-required', 'DeviceUseStatement.extension', r => {
    r.extension = [{ url: own('site-side'), valueCode: 'dexter' }];
  }),
  bad('registry-procedure', 'the name of an operator', 'max', 'DeviceUseStatement.contained', r => {
    const identifier = { system: 'urn:casetally:registry-pseudonym', value: 'k1.1' };
    contained(r, 'Procedure').performer = [{ actor: { identifier, display: 'Dr Nobody' } }];
  }),
  bad('registry-procedure', 'words for an indication', 'max', 'DeviceUseStatement.contained', r => {
    const coding = [{ system: 'http://snomed.info/sct', code: '1' }];
    contained(r, 'Procedure').reasonCode = [{ coding, text: 'Found by her sister' }];
  }),
  bad('number-alike', 'two numbers of how many', 'max', 'DeviceUseStatement.extension', r => {
    const extension = { url: own('number-alike'), valuePositiveInt: 3 };
    r.extension = [extension, extension];
  }),
];

const own = (id: string) => `https://casetally.example/fhir/StructureDefinition/${id}`;

function contained(entry: Loose, type: string): Loose {
  return entry.contained.find((r: Loose) => r.resourceType === type);
}
