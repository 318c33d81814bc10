/**
 * What the engine keeps of FHIR definitions: the machine-readable part of StructureDefinition,
 * ValueSet and CodeSystem, under FHIR's own names, without texts and mappings.
 */
export interface Structure {
  readonly url: string;
  readonly version?: string;
  readonly name?: string;
  readonly type: string;
  readonly kind: 'primitive-type' | 'complex-type' | 'resource' | 'logical';
  readonly abstract: boolean;
  readonly derivation?: 'specialization' | 'constraint';
  readonly baseDefinition?: string;
  /** Where an extension may stand. */
  readonly context?: readonly { readonly type: string; readonly expression: string }[];
  readonly contextInvariant?: readonly string[];
  /** Snapshot elements; empty when the source had a differential only. */
  readonly snapshot: readonly Element[];
  /** Kept only where there is no snapshot. */
  readonly differential?: readonly Element[];
}

export interface Element {
  readonly id: string;
  readonly path: string;
  readonly sliceName?: string;
  readonly min?: number;
  readonly max?: string;
  readonly type?: readonly ElementType[];
  readonly contentReference?: string;
  readonly fixed?: TypedValue;
  readonly pattern?: TypedValue;
  readonly minValue?: TypedValue;
  readonly maxValue?: TypedValue;
  readonly maxLength?: number;
  readonly constraint?: readonly Constraint[];
  readonly binding?: Binding;
  readonly slicing?: Slicing;
  readonly isModifier?: boolean;
}

export interface ElementType {
  readonly code: string;
  readonly profile?: readonly string[];
  readonly targetProfile?: readonly string[];
  readonly aggregation?: readonly string[];
}

/** The value of a `fixed[x]`, `pattern[x]`, … with the type that its name carried. */
export interface TypedValue {
  readonly type: string;
  readonly value: unknown;
}

export interface Constraint {
  readonly key: string;
  readonly severity: 'error' | 'warning';
  readonly human: string;
  readonly expression?: string;
  /** The structure that first declared it. */
  readonly source?: string;
}

export interface Binding {
  readonly strength: 'required' | 'extensible' | 'preferred' | 'example';
  readonly valueSet?: string;
  /** Extension elementdefinition-maxValueSet. */
  readonly maxValueSet?: string;
}

export interface Slicing {
  readonly discriminator?: readonly { readonly type: string; readonly path: string }[];
  readonly ordered?: boolean;
  readonly rules: 'open' | 'closed' | 'openAtEnd';
}

export interface ValueSet {
  readonly url: string;
  readonly version?: string;
  readonly include: readonly Include[];
  readonly exclude?: readonly Include[];
  /** Codes of a complete expansion, used when there is no definition by content. */
  readonly expansion?: readonly Include[];
}

export interface Include {
  readonly system?: string;
  readonly version?: string;
  readonly concept?: readonly { readonly code: string; readonly display?: string }[];
  readonly filter?: readonly { readonly property: string; readonly op: string; readonly value: string }[];
  readonly valueSet?: readonly string[];
}

export interface CodeSystem {
  readonly url: string;
  readonly version?: string;
  readonly content: 'complete' | 'fragment' | 'example' | 'not-present' | 'supplement';
  /** Only false is kept: such codes may be written in any case. */
  readonly caseSensitive?: false;
  readonly concept: readonly Concept[];
}

export interface Concept {
  readonly code: string;
  readonly display?: string;
  /** Further displays: designations. */
  readonly also?: readonly string[];
  /** Codes of the parents in the hierarchy. */
  readonly parent?: readonly string[];
  /** Properties that value set filters ask for. */
  readonly property?: Readonly<Record<string, string>>;
}
