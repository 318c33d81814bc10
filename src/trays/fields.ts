import type { Verb } from '../devices/tally/verbs.js';
import type { CaseEvent } from '../record/schema/record.js';

/** What is usually said of an event beside its devices (common practice, no source). */
const fields: Readonly<Partial<Record<Verb, readonly (keyof CaseEvent)[]>>> = {
  puncture: ['access', 'into', 'guidance', 'depth'],
  insert: ['into', 'across', 'depth'],
  advance: ['into', 'across'],
  withdraw: ['into'],
  remove: ['state'],
  retrieve: ['state'],
  exchange: ['into', 'across', 'depth'],
  reposition: ['into', 'depth'],
  inflate: ['target', 'pressure', 'diameter', 'duration', 'result'],
  deploy: ['across', 'target', 'result'],
  detach: ['target'],
  capture: ['result'],
  cut: ['pieces', 'note'],
  fracture: ['pieces', 'note'],
  set: ['to', 'fixedBy'],
  flush: ['agent', 'volume', 'result'],
  aspirate: ['volume', 'result', 'specimen'],
  sample: ['specimen', 'result'],
  inject: ['agent', 'volume', 'target'],
  image: ['image', 'result'],
  measure: ['target', 'pressure', 'diameter', 'result'],
  cross: ['across', 'crossed', 'result'],
  ablate: ['target', 'duration', 'result'],
  lose: ['result', 'note'],
  discard: ['note'],
};

/** Fields of an event that are worth asking for, in their order. */
export const fieldsOf = (verb: Verb): readonly (keyof CaseEvent)[] => fields[verb] ?? ['note'];
