import type { Site } from '../corpus/definitions.js';
import { isObject, itemsAt, type Json, type JsonObject, textAt } from '../corpus/json.js';
import { isPrimitive, isStructured, isTopLevel, type Operator, onResources, onSites } from './operator.js';

const fhir = 'http://hl7.org/fhir/StructureDefinition/';
const ofType =
  (...types: string[]) =>
  (r: JsonObject) =>
    types.includes(String(r['resourceType']));
const add = (r: JsonObject, key: string, ...values: Json[]) => {
  r[key] = [...itemsAt(r, key), ...values];
};
const onType = (id: string, types: readonly string[], extension: Json, key = 'extension') =>
  onResources('extension', id, ofType(...types), r => add(r, key, extension));
const anyDomain = (r: JsonObject) =>
  !['Bundle', 'Binary', 'Parameters'].includes(String(r['resourceType'])) && 'resourceType' in r;
const onAny = (id: string, extension: Json, key = 'extension') =>
  onResources('extension', id, anyDomain, r => add(r, key, extension));

export const extension: Operator[] = [
  onAny('unknown-url', { url: 'http://example.org/unknown', valueString: 'text' }),
  onAny('unknown-url-in-standard-space', { url: `${fhir}no-such-extension`, valueString: 'text' }),
  onAny('no-url', { valueString: 'text' }),
  onAny('relative-url', { url: 'local', valueString: 'text' }),
  onAny('value-and-children', {
    url: 'http://example.org/unknown',
    valueString: 'text',
    extension: [{ url: 'a', valueString: 'text' }],
  }),
  onAny('neither-value-nor-children', { url: 'http://example.org/unknown' }),
  onAny('value-type-not-allowed', { url: 'http://example.org/unknown', valueHumanoid: 'text' }),
  onAny('two-values', { url: 'http://example.org/unknown', valueString: 'text', valueBoolean: true }),
  onAny('value-of-wrong-grammar', { url: 'http://example.org/unknown', valueDate: '2023-02-30' }),
  onAny('unknown-property', { url: 'http://example.org/unknown', valueString: 'text', wobble: 1 }),
  onAny('empty-extension-array', { url: 'http://example.org/unknown', extension: [] }),
  onAny('unknown-nested', {
    url: 'http://example.org/unknown',
    extension: [{ url: 'a', valueString: 'text' }],
  }),
  onAny(
    'modifier-unknown-url',
    { url: 'http://example.org/unknown', valueBoolean: true },
    'modifierExtension',
  ),
  onAny(
    'modifier-with-plain-extension',
    { url: `${fhir}data-absent-reason`, valueCode: 'unknown' },
    'modifierExtension',
  ),
  onAny('url-with-space', { url: 'http://example.org/un known', valueString: 'text' }),
  onAny('url-is-number', { url: 5, valueString: 'text' }),
  onAny('extension-is-text', 'text'),
  onType('known-valid-birth-place', ['Patient'], {
    url: `${fhir}patient-birthPlace`,
    valueAddress: { text: 'text' },
  }),
  onType('known-wrong-value-type', ['Patient'], { url: `${fhir}patient-birthPlace`, valueString: 'text' }),
  onType(
    'known-wrong-context',
    ['Practitioner', 'Organization', 'Device', 'Procedure', 'Observation', 'Location'],
    { url: `${fhir}patient-birthPlace`, valueAddress: { text: 'text' } },
  ),
  onType('known-no-value', ['Patient'], { url: `${fhir}patient-birthPlace` }),
  onType('known-child-for-value', ['Patient'], {
    url: `${fhir}patient-birthPlace`,
    extension: [{ url: 'a', valueString: 'text' }],
  }),
  onType('known-complex-valid', ['Patient'], {
    url: `${fhir}patient-nationality`,
    extension: [{ url: 'code', valueCodeableConcept: { text: 'text' } }],
  }),
  onType('known-complex-unknown-child', ['Patient'], {
    url: `${fhir}patient-nationality`,
    extension: [{ url: 'wobble', valueString: 'text' }],
  }),
  onType('known-complex-child-wrong-type', ['Patient'], {
    url: `${fhir}patient-nationality`,
    extension: [{ url: 'code', valueString: 'text' }],
  }),
  onType('known-complex-value', ['Patient'], { url: `${fhir}patient-nationality`, valueString: 'text' }),
  onType('known-complex-child-doubled', ['Patient'], {
    url: `${fhir}patient-nationality`,
    extension: [
      { url: 'code', valueCodeableConcept: { text: 'text' } },
      { url: 'code', valueCodeableConcept: { text: 'text' } },
    ],
  }),
  onType('known-required-binding-unknown-code', ['Procedure', 'Observation', 'Device'], {
    url: `${fhir}data-absent-reason`,
    valueCode: 'wobble',
  }),
  onType('known-valid-method', ['Procedure'], {
    url: `${fhir}procedure-method`,
    valueCodeableConcept: { text: 'text' },
  }),
  onType('known-method-wrong-type', ['Procedure'], { url: `${fhir}procedure-method`, valueCode: 'a' }),
  onType('known-method-wrong-context', ['Device', 'Patient', 'Observation', 'Composition'], {
    url: `${fhir}procedure-method`,
    valueCodeableConcept: { text: 'text' },
  }),
  onType('known-reference-wrong-target', ['Observation', 'Procedure'], {
    url: `${fhir}event-partOf`,
    valueReference: { reference: 'Patient/x' },
  }),
  onType('known-versioned-url', ['Patient'], {
    url: `${fhir}patient-birthPlace|4.0.1`,
    valueAddress: { text: 'text' },
  }),
  onSites(
    'extension',
    'absent-reason-on-value',
    s => isPrimitive(s) && s.index === undefined && isTopLevel(s),
    ({ holder, site }) => {
      holder[`_${site.key}`] = { extension: [{ url: `${fhir}data-absent-reason`, valueCode: 'unknown' }] };
    },
  ),
  onSites('extension', 'unknown-in-structure', isStructured, ({ set, site }) =>
    set({
      ...(site.value as JsonObject),
      extension: [
        ...itemsAt(site.value, 'extension'),
        { url: 'http://example.org/unknown', valueString: 'text' },
      ],
    }),
  ),
  onSites(
    'extension',
    'url-removed',
    s => s.type === 'Extension',
    ({ set, site }) => {
      const { url: _, ...rest } = site.value as JsonObject;
      set(rest);
    },
  ),
  onSites(
    'extension',
    'value-removed',
    s => s.type === 'Extension',
    ({ set, site }) => set({ url: textAt(site.value, 'url') ?? '' }),
  ),
  onSites(
    'extension',
    'value-type-changed',
    s => s.type === 'Extension' && !('extension' in (s.value as JsonObject)),
    ({ set, site }) =>
      set({
        url: textAt(site.value, 'url') ?? '',
        valueSignature: { type: [{ code: 'a' }], when: '2020-02-03T10:20:30Z', who: { display: 'text' } },
      }),
  ),
  onSites(
    'extension',
    'doubled',
    s => s.type === 'Extension' && s.index !== undefined,
    ({ holder, site }) => add(holder, site.key, structuredClone(site.value)),
  ),
  onSites(
    'extension',
    'moved-into-name',
    s => s.type === 'Extension' && isTopLevel(s) && s.pointer.length === 2,
    ({ root, site, set }) => {
      set(undefined);
      const target = ['code', 'subject', 'category', 'identifier', 'name', 'type']
        .map(k => itemsAt(root, k)[0])
        .find(v => isObject(v));
      if (isObject(target)) add(target, 'extension', structuredClone(site.value));
    },
  ),
];

const place = (id: string): JsonObject => ({ resourceType: 'Location', id, name: 'Room' });
const referable = (r: JsonObject) => anyDomain(r) && 'subject' in r && !('contained' in r);
/** A resource that may point anywhere: the reference goes into an extension, so no target rule interferes. */
const point = (r: JsonObject, reference: string) =>
  add(r, 'extension', { url: 'http://example.org/unknown', valueReference: { reference } });

export const contained: Operator[] = [
  onResources('contained', 'valid-contained', referable, r => {
    add(r, 'contained', place('room'));
    point(r, '#room');
  }),
  onResources('contained', 'not-referenced', referable, r => add(r, 'contained', place('room'))),
  onResources('contained', 'nested', referable, r => {
    add(r, 'contained', { ...place('room'), contained: [place('inner')] });
    point(r, '#room');
  }),
  onResources('contained', 'version-inside', referable, r => {
    add(r, 'contained', { ...place('room'), meta: { versionId: '1' } });
    point(r, '#room');
  }),
  onResources('contained', 'updated-inside', referable, r => {
    add(r, 'contained', { ...place('room'), meta: { lastUpdated: '2020-02-03T10:20:30Z' } });
    point(r, '#room');
  }),
  onResources('contained', 'security-inside', referable, r => {
    add(r, 'contained', { ...place('room'), meta: { security: [{ code: 'R' }] } });
    point(r, '#room');
  }),
  onResources('contained', 'narrative-inside', referable, r => {
    add(r, 'contained', {
      ...place('room'),
      text: { status: 'generated', div: '<div xmlns="http://www.w3.org/1999/xhtml">Room</div>' },
    });
    point(r, '#room');
  }),
  onResources('contained', 'no-id', referable, r =>
    add(r, 'contained', { resourceType: 'Location', name: 'Room' }),
  ),
  onResources('contained', 'hash-in-id', referable, r => {
    add(r, 'contained', place('#room'));
    point(r, '#room');
  }),
  onResources('contained', 'same-id-twice', referable, r => {
    add(r, 'contained', place('room'), place('room'));
    point(r, '#room');
  }),
  onResources('contained', 'broken-inside', referable, r => {
    add(r, 'contained', { ...place('room'), status: 'wobble' });
    point(r, '#room');
  }),
  onResources('contained', 'unknown-property-inside', referable, r => {
    add(r, 'contained', { ...place('room'), wobble: 'text' });
    point(r, '#room');
  }),
  onResources('contained', 'required-missing-inside', referable, r => {
    add(r, 'contained', { resourceType: 'Observation', id: 'obs', code: { text: 'text' } });
    point(r, '#obs');
  }),
  onResources('contained', 'no-type-inside', referable, r => {
    add(r, 'contained', { id: 'room', name: 'Room' });
    point(r, '#room');
  }),
  onResources('contained', 'bundle-inside', referable, r => {
    add(r, 'contained', { resourceType: 'Bundle', id: 'room', type: 'collection' });
    point(r, '#room');
  }),
  onResources('contained', 'dangling', referable, r => point(r, '#nowhere')),
  onResources('contained', 'points-back-valid', referable, r => {
    add(r, 'contained', {
      resourceType: 'Basic',
      id: 'b',
      code: { text: 'text' },
      subject: { reference: '#' },
    });
  }),
  onResources('contained', 'pointed-by-sibling-valid', referable, r => {
    add(r, 'contained', place('room'), {
      resourceType: 'Basic',
      id: 'b',
      code: { text: 'text' },
      subject: { reference: '#room' },
    });
    point(r, '#b');
  }),
  onSites(
    'contained',
    'dangling-in-place',
    s => s.type === 'Reference' && textAt(s.value, 'reference') !== undefined,
    ({ set }) => set({ reference: '#nowhere' }),
  ),
  onSites(
    'contained',
    'contained-removed',
    s => s.key === 'contained' && s.index !== undefined,
    ({ set }) => set(undefined),
  ),
  onSites(
    'contained',
    'contained-id-changed',
    s => s.key === 'contained' && isObject(s.value),
    ({ set, site }) => set({ ...(site.value as JsonObject), id: 'changed' }),
  ),
];

const merge = (id: string, matches: (s: Site) => boolean, change: (value: JsonObject) => Json) =>
  onSites(
    'invariant',
    id,
    s => isObject(s.value) && matches(s),
    ({ set, site }) => set(change(site.value as JsonObject)),
  );
const whole = (id: string, types: readonly string[], change: (r: JsonObject) => void) =>
  onResources('invariant', id, ofType(...types), change);
const type =
  (...names: string[]) =>
  (s: Site) =>
    names.includes(s.type);
const path = (name: string) => (s: Site) => s.element.path === name;

export const invariant: Operator[] = [
  merge('per-1-end-before-start', type('Period'), () => ({ start: '2021-05-04', end: '2020-05-04' })),
  merge('per-1-same-day-valid', type('Period'), () => ({ start: '2021-05-04', end: '2021-05-04' })),
  merge('per-1-mixed-precision', type('Period'), () => ({ start: '2021-05', end: '2021-05-04' })),
  merge('per-1-mixed-precision-wrong', type('Period'), () => ({ start: '2021-06', end: '2021-05-04' })),
  merge('per-1-zones-valid', type('Period'), () => ({
    start: '2021-05-04T23:30:00+02:00',
    end: '2021-05-04T22:00:00Z',
  })),
  merge('per-1-zones-wrong', type('Period'), () => ({
    start: '2021-05-04T22:00:00Z',
    end: '2021-05-04T23:30:00+02:00',
  })),
  merge('qty-3-code-without-system', type('Quantity'), v => ({ value: v['value'] ?? 1, code: 'mm' })),
  merge('rng-2-high-below-low', type('Range'), () => ({ low: { value: 5 }, high: { value: 3 } })),
  merge('rat-1-no-denominator', type('Ratio'), () => ({ numerator: { value: 3 } })),
  merge('cpt-2-value-without-system', type('ContactPoint'), () => ({ value: '5550100' })),
  merge('att-1-data-without-type', type('Attachment'), () => ({ data: 'AAAA' })),
  merge('ref-1-dangling', type('Reference'), () => ({ reference: '#missing' })),
  merge('age-1-negative', type('Age'), () => ({ value: -3, system: 'http://unitsofmeasure.org', code: 'a' })),
  merge('age-1-no-code', type('Age'), () => ({ value: 3 })),
  merge('drt-1-no-system', type('Duration'), () => ({ value: 3, code: 'd' })),
  merge('ext-1-both', type('Extension'), v => ({
    ...v,
    valueString: 'text',
    extension: [{ url: 'a', valueString: 'text' }],
  })),
  merge(
    'sqty-1-comparator',
    s => s.type === 'Quantity' && JSON.stringify(s.element.raw['type']).includes('SimpleQuantity'),
    v => ({ ...v, comparator: '<' }),
  ),
  merge('tim-1-duration-without-unit', path('Timing.repeat'), () => ({ duration: 5 })),
  merge('tim-2-period-without-unit', path('Timing.repeat'), () => ({ period: 5 })),
  merge('tim-4-negative-duration', path('Timing.repeat'), () => ({ duration: -5, durationUnit: 'h' })),
  merge('tim-5-negative-period', path('Timing.repeat'), () => ({ period: -5, periodUnit: 'h' })),
  merge('tim-6-period-max-alone', path('Timing.repeat'), () => ({ periodMax: 5 })),
  merge('tim-8-count-max-alone', path('Timing.repeat'), () => ({ countMax: 5 })),
  merge('tim-9-offset-without-when', path('Timing.repeat'), () => ({ offset: 5 })),
  merge('tim-10-time-and-when', path('Timing.repeat'), () => ({ timeOfDay: ['10:20:30'], when: ['MORN'] })),
  whole('obs-6-value-and-reason', ['Observation'], r => {
    r['valueString'] = 'text';
    for (const k of Object.keys(r)) if (k.startsWith('value') && k !== 'valueString') delete r[k];
    r['dataAbsentReason'] = { text: 'unknown' };
  }),
  whole('obs-7-component-same-code', ['Observation'], r => {
    for (const k of Object.keys(r)) if (k.startsWith('value')) delete r[k];
    delete r['dataAbsentReason'];
    r['valueString'] = 'text';
    add(r, 'component', { code: structuredClone(r['code'] ?? null), valueString: 'text' });
  }),
  whole('obs-3-empty-range', ['Observation'], r => add(r, 'referenceRange', { type: { text: 'normal' } })),
  whole('pat-1-contact-without-details', ['Patient'], r => add(r, 'contact', { gender: 'female' })),
  whole('org-1-no-name', ['Organization'], r => {
    delete r['name'];
    delete r['identifier'];
  }),
  whole('org-2-home-address', ['Organization'], r => add(r, 'address', { use: 'home', text: 'text' })),
  whole('org-3-home-telecom', ['Organization'], r =>
    add(r, 'telecom', { use: 'home', system: 'phone', value: '5550100' }),
  ),
  whole('con-3-no-clinical-status', ['Condition'], r => {
    delete r['clinicalStatus'];
  }),
  whole('con-4-abated-active', ['Condition'], r => {
    r['clinicalStatus'] = {
      coding: [{ system: 'http://terminology.hl7.org/CodeSystem/condition-clinical', code: 'active' }],
    };
    for (const k of Object.keys(r)) if (k.startsWith('abatement')) delete r[k];
    r['abatementString'] = 'over';
  }),
  whole('con-5-error-with-status', ['Condition'], r => {
    r['verificationStatus'] = {
      coding: [
        { system: 'http://terminology.hl7.org/CodeSystem/condition-ver-status', code: 'entered-in-error' },
      ],
    };
    r['clinicalStatus'] = {
      coding: [{ system: 'http://terminology.hl7.org/CodeSystem/condition-clinical', code: 'active' }],
    };
  }),
  whole('con-1-empty-stage', ['Condition'], r => add(r, 'stage', { type: { text: 'text' } })),
  whole('con-2-empty-evidence', ['Condition'], r => add(r, 'evidence', { id: 'e1' })),
  whole('ait-1-no-clinical-status', ['AllergyIntolerance'], r => {
    delete r['clinicalStatus'];
  }),
  whole('ait-2-error-with-status', ['AllergyIntolerance'], r => {
    r['verificationStatus'] = {
      coding: [
        {
          system: 'http://terminology.hl7.org/CodeSystem/allergyintolerance-verification',
          code: 'entered-in-error',
        },
      ],
    };
  }),
  whole('mad-1-no-dose', ['MedicationAdministration'], r => {
    r['dosage'] = { text: 'text' };
  }),
  whole('prr-1-detail-without-code', ['ServiceRequest'], r => {
    delete r['code'];
    add(r, 'orderDetail', { text: 'text' });
  }),
  whole('cpl-3-both', ['CarePlan'], r =>
    add(r, 'activity', { reference: { reference: 'Task/a' }, detail: { status: 'scheduled' } }),
  ),
  whole('inv-1-last-modified-before', ['Task'], r => {
    r['authoredOn'] = '2021-02-03';
    r['lastModified'] = '2020-02-03';
  }),
  whole('imm-status-unknown', ['Immunization'], r => {
    r['status'] = 'wobble';
  }),
  whole('cmp-1-empty-section', ['Composition'], r => add(r, 'section', { title: 'Empty' })),
  whole('cmp-2-entry-and-reason', ['Composition'], r =>
    add(r, 'section', { title: 'Both', entry: [{ reference: 'Device/d' }], emptyReason: { text: 'none' } }),
  ),
  whole('lst-1-entry-and-reason', ['List'], r => {
    add(r, 'entry', { item: { reference: 'Device/d' } });
    r['emptyReason'] = { text: 'none' };
  }),
  whole('grp-1-members-of-type', ['Group'], r => {
    r['actual'] = false;
    add(r, 'member', { entity: { reference: 'Patient/p' } });
  }),
  whole('ppc-1-no-policy', ['Consent'], r => {
    delete r['policy'];
    delete r['policyRule'];
  }),
  whole('app-2-start-only', ['Appointment'], r => {
    delete r['end'];
  }),
  whole(
    'dom-6-no-narrative',
    ['Procedure', 'Device', 'Patient', 'Observation', 'Organization', 'Task'],
    r => {
      delete r['text'];
    },
  ),
];

export const reference: Operator[] = [
  onSites(
    'reference',
    'wrong-target-type',
    s =>
      s.type === 'Reference' &&
      textAt(s.value, 'reference') !== undefined &&
      !s.element.targets.includes('Resource') &&
      !s.element.targets.includes('Slot'),
    ({ set }) => set({ reference: 'Slot/wrong' }),
  ),
  onSites(
    'reference',
    'wrong-target-type-absolute',
    s =>
      s.type === 'Reference' &&
      textAt(s.value, 'reference') !== undefined &&
      !s.element.targets.includes('Resource') &&
      !s.element.targets.includes('Slot'),
    ({ set }) => set({ reference: 'http://example.org/fhir/Slot/wrong' }),
  ),
  onSites(
    'reference',
    'right-target-type-valid',
    s =>
      s.type === 'Reference' &&
      s.element.targets.length > 0 &&
      !s.element.targets.includes('Resource') &&
      s.resource.length === 0,
    ({ set, site }) => set({ reference: `${site.element.targets[0] ?? 'Patient'}/other` }),
  ),
  onSites(
    'reference',
    'type-element-contradicts',
    s => s.type === 'Reference' && /^[A-Z]\w+\//.test(textAt(s.value, 'reference') ?? ''),
    ({ set, site }) => set({ ...(site.value as JsonObject), type: 'Slot' }),
  ),
  onSites(
    'reference',
    'type-element-unknown',
    s => s.type === 'Reference',
    ({ set, site }) => set({ ...(site.value as JsonObject), type: 'Wobble' }),
  ),
  onSites(
    'reference',
    'unknown-type-in-address',
    s => s.type === 'Reference' && textAt(s.value, 'reference') !== undefined,
    ({ set }) => set({ reference: 'Wobble/1' }),
  ),
  onSites(
    'reference',
    'no-type-in-address',
    s => s.type === 'Reference' && textAt(s.value, 'reference') !== undefined,
    ({ set }) => set({ reference: '12345' }),
  ),
  onSites(
    'reference',
    'contained-of-wrong-type',
    s =>
      s.type === 'Reference' &&
      isTopLevel(s) &&
      !s.element.targets.includes('Resource') &&
      !s.element.targets.includes('Slot'),
    ({ root, set }) => {
      add(root, 'contained', {
        resourceType: 'Slot',
        id: 'slot',
        schedule: { display: 'text' },
        status: 'free',
        start: '2020-02-03T10:20:30Z',
        end: '2020-02-03T11:20:30Z',
      });
      set({ reference: '#slot' });
    },
  ),
  onSites(
    'reference',
    'urn-outside-bundle',
    s => s.type === 'Reference' && isTopLevel(s),
    ({ set }) => set({ reference: 'urn:uuid:6f2b8e0a-94e4-4a3e-9d3e-1e8f6c1f2a77' }),
  ),
  onSites(
    'reference',
    'malformed-urn',
    s => s.type === 'Reference' && textAt(s.value, 'reference') !== undefined,
    ({ set }) => set({ reference: 'urn:uuid:not-a-uuid' }),
  ),
  onSites(
    'reference',
    'id-of-wrong-grammar',
    s => s.type === 'Reference' && s.element.targets.includes('Patient'),
    ({ set }) => set({ reference: 'Patient/under_score' }),
  ),
  onSites(
    'reference',
    'versioned-valid',
    s => s.type === 'Reference' && s.element.targets.includes('Patient') && s.resource.length === 0,
    ({ set }) => set({ reference: 'Patient/a/_history/1' }),
  ),
  onSites(
    'reference',
    'identifier-only-valid',
    s => s.type === 'Reference' && isTopLevel(s),
    ({ set }) => set({ identifier: { system: 'http://example.org/ids', value: '1' } }),
  ),
  onSites(
    'reference',
    'display-only-valid',
    s => s.type === 'Reference' && isTopLevel(s),
    ({ set }) => set({ display: 'text' }),
  ),
  onSites(
    'reference',
    'text-for-reference',
    s => s.type === 'Reference',
    ({ set }) => set('Patient/1'),
  ),
  onSites(
    'reference',
    'query-for-reference',
    s => s.type === 'Reference' && s.element.targets.includes('Patient'),
    ({ set }) => set({ reference: 'Patient?identifier=a' }),
  ),
  onSites(
    'reference',
    'empty-fragment',
    s => s.type === 'Reference' && textAt(s.value, 'reference') !== undefined,
    ({ set }) => set({ reference: '#' }),
  ),
];
