import { fileURLToPath } from 'node:url';
import type { Validator } from '../conformance/result.js';
import { createValidator } from '../conformance/validator.js';
import { OWN_BASE } from '../fhir/profiles.js';
import { loadTemplates } from '../report/render/load.js';
import type { Templates } from '../report/render/templates.js';
import { definitionsUnder } from './definitions.js';
import type { Tools } from './prepare.js';

/** Where the shipped templates lie, from `src` and from `dist` alike. */
export const shippedTemplates = fileURLToPath(new URL('../../templates/', import.meta.url));

/** A folder of the site whose layouts and templates go before the shipped ones. */
export interface TemplateSettings {
  readonly folder?: string;
}

/** What of a site's settings the tools depend on. */
export interface ToolSettings extends TemplateSettings {
  /** Under which our profiles are published (`fhir.canonical`). */
  readonly canonical?: string;
}

/** Loads templates alone: enough for printing a report. */
export function loadReportTemplates({ folder }: TemplateSettings = {}): Templates {
  return loadTemplates(shippedTemplates, ...(folder === undefined ? [] : [folder]));
}

/** Of the shipped definitions, by the address of ours; kept, since all that it reads of them is the same for every case. */
const validators = new Map<string, Validator>();

/** Loads templates and definitions: an edge. */
export function loadTools(
  softwareVersion: string,
  { canonical = OWN_BASE, ...templates }: ToolSettings = {},
): Tools {
  const validator = validators.get(canonical) ?? createValidator(definitionsUnder(canonical));
  validators.set(canonical, validator);
  return { templates: loadReportTemplates(templates), validator, softwareVersion };
}
