import type { Coding } from 'fhir/r4.js';
import { s } from './sources.js';

/** A code of a published code system with the place it was taken from. */
export interface KnownCode {
  readonly system: string;
  readonly code: string;
  /** As the source has it; for a code from memory the name of its row, which is not sent as display. */
  readonly display: string;
  /** File of an npm FHIR package that carries code and display; none for a code from memory. */
  readonly source?: string;
  /** `licensed`: sent under a licence of its code system alone; `memory`: in no package, sent where a site wants it. */
  readonly only?: 'licensed' | 'memory';
}

/** The address of SNOMED CT. */
export const SNOMED = s.sct;

/** One known code, as the tables that are made of them write it. */
export const k = (
  system: string,
  code: string,
  display: string,
  source: string | undefined,
  only?: KnownCode['only'],
): KnownCode => ({ system, code, display, ...(source && { source }), ...(only && { only }) });

type Rest = [display: string, source: string | undefined, only?: KnownCode['only']];

/** A code of SNOMED CT. */
export const sct = (code: string, ...rest: Rest): KnownCode => k(s.sct, code, ...rest);

/** A code of LOINC. */
export const loinc = (code: string, ...rest: Rest): KnownCode => k(s.loinc, code, ...rest);

/** The FHIR Coding of a known code. */
export function codingOf({ system, code, display, only }: KnownCode): Coding {
  return only === 'memory' ? { system, code } : { system, code, display };
}
