import type { CodeableConcept, Observation, ObservationComponent, Quantity } from 'fhir/r4.js';
import { digitsOf } from '../../json/write.js';
import { observationCategories } from '../codes/clinical.js';
import type { SectionKey } from '../codes/sections.js';
import { codingOf } from '../codes/types.js';
import type { EntryFacts, MappingContext } from '../context.js';
import { present, some } from '../tidy.js';
import { personRef } from './people.js';

/** What makes one Observation different from another. */
export interface ObservationFacts {
  readonly role: string;
  readonly category: keyof typeof observationCategories;
  readonly code: CodeableConcept;
  readonly value?: Pick<
    Observation,
    'valueQuantity' | 'valueString' | 'valueCodeableConcept' | 'valueDateTime'
  >;
  readonly components?: readonly ObservationComponent[];
  /** FHIR dateTime; the case itself when absent. */
  readonly at?: string | undefined;
  readonly more?: Partial<Omit<Observation, 'resourceType'>>;
  /** True when it is about the state before or after, and no part of the procedure. */
  readonly apart?: boolean;
  readonly notes?: readonly string[];
  readonly section: SectionKey;
  readonly from: string;
  readonly sources?: NonNullable<EntryFacts['sources']>;
}

/** Adds one final Observation of the case. */
export function addObservation(context: MappingContext, facts: ObservationFacts): void {
  const { times, record } = context;
  // Who answers for the report answers for what it observed; a laboratory's values are the laboratory's.
  const author = personRef(context, record.report.author);
  const resource: Observation = {
    resourceType: 'Observation',
    identifier: [context.identifier(facts.role)],
    partOf: facts.apart ? undefined : [context.ref('procedure')],
    status: 'final',
    category: [{ coding: [codingOf(observationCategories[facts.category])] }],
    code: facts.code,
    subject: context.ref('patient'),
    encounter: record.case.encounter && context.ref('encounter'),
    effectiveDateTime: facts.at ?? times.start ?? record.case.date,
    performer: facts.category === 'laboratory' || !author ? undefined : [author],
    ...facts.value,
    note: some((facts.notes ?? []).map(text => ({ text }))),
    component: some(facts.components ?? []),
    ...facts.more,
  };
  context.add(facts.role, resource, {
    from: facts.from,
    ...(facts.sources && { sources: facts.sources }),
    summary: present(
      present(facts.code.text, valueText(resource)).join(': '),
      ...(facts.components ?? []).map(part => present(part.code.text, valueText(part)).join(': ')),
      ...(facts.notes ?? []),
    ),
    section: facts.section,
  });
}

/** A component with a name and a value. */
export function component(
  code: CodeableConcept | string,
  value: Omit<ObservationComponent, 'code'>,
): ObservationComponent {
  return { code: typeof code === 'string' ? { text: code } : code, ...value };
}

function valueText(
  from: Pick<
    ObservationComponent,
    'valueQuantity' | 'valueString' | 'valueCodeableConcept' | 'valueDateTime' | 'dataAbsentReason'
  >,
): string | undefined {
  return (
    (from.valueQuantity && printed(from.valueQuantity)) ??
    from.valueString ??
    from.valueCodeableConcept?.text ??
    from.valueDateTime ??
    from.dataAbsentReason?.text
  );
}

function printed(quantity: Quantity): string {
  const value = digitsOf(quantity) ?? (quantity.value === undefined ? undefined : String(quantity.value));
  return present(quantity.comparator, value, quantity.unit).join(' ');
}
