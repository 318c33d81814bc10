import type { Binding, Constraint } from '../definitions/model.js';
import type { Def } from './definition.js';

export type Kind = 'primitive' | 'complex' | 'resource';

/**
 * Everything that applies at one place: the definitions of the type, of the profiles and of the slices,
 * merged. Plans are made once for each combination and shared, so each value is visited once however
 * many profiles it claims.
 */
export interface Plan {
  readonly defs: readonly Def[];
  /** Canonicals of the structures that `defs` come from. */
  readonly sources: readonly string[];
  readonly type: string;
  readonly kind: Kind;
  /** JSON member name to what it means. */
  readonly members: ReadonlyMap<string, Member>;
  readonly slots: readonly Slot[];
  /** Those of them whose absence has to be noticed. */
  readonly watched: readonly Slot[];
  readonly constraints: readonly Planned<Constraint>[];
  readonly bindings: readonly Planned<Binding>[];
  /** Definitions that carry a fixed value, pattern, length or range. */
  readonly values: readonly Def[];
  /** For references: one list of allowed targets a definition. */
  readonly targets: readonly Planned<Targets>[];
  /** Several profiles of which one must be met. */
  readonly anyOf: readonly Planned<readonly string[]>[];
  readonly missingProfiles: readonly Planned<string>[];
  /** Type with its ancestors, for extension contexts: `['Age', 'Quantity', 'Element']`. */
  readonly ancestry: readonly string[];
  /** Element path in the structure that defines it, the base of FHIRPath expressions. */
  readonly base: string;
}

export interface Planned<T> {
  readonly what: T;
  readonly def: Def;
}

export interface Targets {
  readonly profiles: readonly string[];
  readonly aggregation?: readonly string[];
  /** The profiles that a target of one type may have; filled as they are needed. */
  readonly fitting: Map<string, Fitting>;
}

export interface Fitting {
  readonly profiles: readonly string[];
  /** One of them is a plain type, which the target's own place checks. */
  readonly plain: boolean;
}

export interface Member {
  readonly slot: Slot;
  readonly type: string;
  readonly kind: Kind | undefined;
}

/** Plans of one list of definitions, and branches for the definitions that may follow it. */
export interface PlanBranch {
  plan: Plan | undefined;
  readonly next: Map<Def, PlanBranch>;
}

/** One child element, with what all definitions say of it. */
export interface Slot {
  readonly name: string;
  readonly choice: boolean;
  /** Written as a JSON array. */
  readonly repeats: boolean;
  readonly min: number;
  readonly minDef: Def;
  readonly max: number;
  readonly maxDef: Def;
  readonly defs: readonly Def[];
  /** Definitions with slices. */
  readonly sliced: readonly Def[];
  /** Whether its absence, or a second type, has to be noticed. */
  readonly watched: boolean;
  /** Plans of items by type, then by the definitions that slices add; filled as they are needed. */
  readonly plans: Map<string, PlanBranch>;
}
