import { bundle } from './bundles.js';
import { narrative } from './narrative.js';
import type { Operator } from './operator.js';
import { fixedAndPattern, slicing } from './profiles.js';
import { contained, extension, invariant, reference } from './rules.js';
import { cardinality, choice, emptyValue, json, nullPadding, types, unknownProperty } from './structure.js';
import { anyPrimitive, binding, date, display, primitive, ucumCodes } from './values.js';

/** Every way the agreement run changes a resource; ids are unique within a family. */
export const operators: readonly Operator[] = [
  ...cardinality,
  ...types,
  ...choice,
  ...primitive,
  ...anyPrimitive,
  ...date,
  ...nullPadding,
  ...unknownProperty,
  ...emptyValue,
  ...fixedAndPattern,
  ...slicing,
  ...extension,
  ...contained,
  ...binding,
  ...display,
  ...ucumCodes,
  ...invariant,
  ...reference,
  ...bundle,
  ...narrative,
  ...json,
];
