import type { Finding } from '../../findings/finding.js';
import type { AnswersDefinition } from '../definition/schema.js';

/** What one line of an answer says. */
export interface AnswerLine {
  /** Its place in the answer, from 1. */
  readonly line: number;
  /** Pseudonym of the entry. */
  readonly entry: string;
  readonly version?: number;
  readonly result: 'accepted' | 'duplicate' | 'refused';
  readonly code?: string;
  readonly says?: string;
  /** SHA-256 of the batch that is answered. */
  readonly digest?: string;
}

/** An answer as far as it could be read. */
export interface Answer {
  readonly lines: readonly AnswerLine[];
  /** False where it ends before it should. */
  readonly complete: boolean;
  /** Lines that could not be read. */
  readonly findings: readonly Finding[];
}

type WithResults = Exclude<AnswersDefinition, { kind: 'fhir bundle' }>;

/** What a result of an answer means; undefined for one that the definition does not know. */
export function resultOf(text: string, { results }: WithResults): AnswerLine['result'] | undefined {
  const said = text.trim();
  return (['accepted', 'duplicate', 'refused'] as const).find(name => results[name].includes(said));
}

/** The most that is kept of what a registry says of a line. */
const LONGEST = 300;

/** Text of a registry as it may be printed: one line, without signs that steer a terminal. */
export function saidText(text: string | undefined): string | undefined {
  const plain = text?.replace(/[\p{C}\s]+/gu, ' ').trim();
  return plain === undefined || plain === '' ? undefined : plain.slice(0, LONGEST);
}
