import { define } from '../define.js';

/** Wording of the findings about the site configuration. */
export const siteWording = define({
  'site.setting': {
    severity: 'fatal',
    message: 'Site configuration: {message}',
    remedy: '{fix}',
    basis: 'the site configuration format',
  },
  'site.not-configured': {
    severity: 'information',
    message: 'No site configuration was given: identifiers are made under a placeholder site.',
    remedy: 'Give --site FILE before anything is sent to a real server.',
    basis: 'the site configuration format',
  },
});
