import { fileURLToPath } from 'node:url';
import { loadDefinitions } from '../conformance/definitions/load.js';
import type { Validator } from '../conformance/result.js';
import { createValidator } from '../conformance/validator.js';
import { loadTemplates } from '../report/render/load.js';
import type { Templates } from '../report/render/templates.js';
import type { Tools } from './prepare.js';

/** Where the shipped templates lie, from `src` and from `dist` alike. */
export const shippedTemplates = fileURLToPath(new URL('../../templates/', import.meta.url));

/** A folder of the site whose layouts and templates go before the shipped ones. */
export interface TemplateSettings {
  readonly folder?: string;
}

/** Loads templates alone: enough for printing a report. */
export function loadReportTemplates({ folder }: TemplateSettings = {}): Templates {
  return loadTemplates(shippedTemplates, ...(folder === undefined ? [] : [folder]));
}

/** Of the shipped definitions; kept, since all that it reads of them is the same for every case and site. */
let validator: Validator | undefined;

/** Loads templates and definitions: an edge. */
export function loadTools(softwareVersion: string, templates: TemplateSettings = {}): Tools {
  validator ??= createValidator(loadDefinitions());
  return { templates: loadReportTemplates(templates), validator, softwareVersion };
}
