import { define } from '../define.js';

const PAGE = 'docs: templates/README.md, rules';

/** Wording of the findings about a site's own report templates. */
export const templateWording = define({
  'template.none': {
    severity: 'error',
    message: 'The folder {folder} has no layout (.yaml) or template (.hbs).',
    remedy:
      'Name the folder whose files are called ward.yaml, or like the shipped templates, such as style.hbs.',
    basis: PAGE,
  },
  'template.broken': {
    severity: 'error',
    message: '{why}',
    remedy: 'Fix the file; keys of sections, names and helpers are listed in templates/README.md.',
    basis: PAGE,
  },
  'template.drops': {
    severity: 'error',
    message: 'The report for {audience} as {format} ({language}, example {example}) no longer shows: {fact}.',
    remedy: 'Print it again, with its label before it, where every reader sees it.',
    basis: 'a report that leaves it out can harm: common practice, no source',
  },
  'template.unsafe': {
    severity: 'error',
    message: 'The report for {audience} as {format} is not safe to show: {why}.',
    remedy: 'Print with two braces, in text and not in attributes or style; leave out what is named here.',
    basis: 'HTML Living Standard, section 13.1; FHIR R4, Narrative, constraint txt-1',
  },
  'template.unused': {
    severity: 'warning',
    message: 'The template {name} overrides none that is shipped, and none calls it.',
    remedy: 'Look for a slip in its name, or call it from an own template.',
    basis: PAGE,
  },
});
