import { fileURLToPath } from 'node:url';
import { loadDefinitions } from '../conformance/definitions/load.js';
import { createValidator } from '../conformance/validator.js';
import { loadTemplates } from '../report/render/load.js';
import type { Templates } from '../report/render/templates.js';
import type { Tools } from './prepare.js';

/** Where the shipped templates lie, from `src` and from `dist` alike. */
const templatesPath = fileURLToPath(new URL('../../templates/', import.meta.url));

/** Loads templates alone: enough for printing a report. */
export function loadReportTemplates(): Templates {
  return loadTemplates(templatesPath);
}

/** Loads templates and definitions: an edge, called once. */
export function loadTools(softwareVersion: string): Tools {
  return { templates: loadReportTemplates(), validator: createValidator(loadDefinitions()), softwareVersion };
}
