import { OWN_BASE } from '../../fhir/profiles.js';

/** Where the form is published, and as which edition. */
export interface FormOptions {
  /** Address under which a site publishes what Casetally defines (`fhir.canonical`). */
  readonly canonical?: string;
  /** Edition of the form: the version of the software that made it. */
  readonly version?: string;
}

/** Canonical address of the form, without its version. */
export const formAddress = ({ canonical = OWN_BASE }: FormOptions): string =>
  `${canonical}/Questionnaire/case-record`;
