import type { Finding } from '../../findings/finding.js';
import type { Language } from '../../findings/languages.js';
import { type Reply, refusal } from '../api/reply.js';

/** The answer where a record need not be whole, but devices or events of it cannot be read. */
export const unreadable = (findings: readonly Finding[], language: Language | undefined): Reply =>
  refusal(422, 'invalid', 'Devices and events of the record must be readable first.', findings, {}, language);
