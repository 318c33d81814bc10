import { define } from '../define.js';

/** Wording of the registry findings. */
export const registryWording = define({
  'registry.missing': {
    severity: 'error',
    message: "Case {case}: the registry entry for device '{device}' lacks {what}.",
    remedy: '{remedy}',
    basis:
      'IMDRF/UDI WG/N48:2019 (device identification in registries); common practice, no source, for the rest',
  },
  'registry.key-missing': {
    severity: 'warning',
    message:
      "Registry '{registry}' has no secret for pseudonyms: this build cannot be linked with any other.",
    remedy: 'Set key in the registry settings of the site configuration (env:NAME or file:PATH).',
    basis: 'common practice, no source',
  },
  'registry.no-device': {
    severity: 'information',
    message: 'Case {case} has no device that a registry would hold.',
    remedy: 'Nothing to do.',
    basis: 'common practice, no source',
  },
});
