import { homedir } from 'node:os';
import { join } from 'node:path';
import type { Definitions } from '../conformance/definitions/definitions.js';
import { loadDefinitions } from '../conformance/definitions/load.js';
import { OWN_BASE } from '../fhir/profiles.js';

/** The usual place of the FHIR package cache (FHIR package specification). */
export const defaultCache = (): string => join(homedir(), '.fhir', 'packages');

/** The shipped definitions, with our own under the address of a site. */
export const definitionsUnder = (canonical: string = OWN_BASE): Definitions =>
  loadDefinitions().moved(OWN_BASE, canonical);
