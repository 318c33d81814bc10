import { readFileSync } from 'node:fs';

/** Said wherever results leave the program. */
export const CAUTION =
  'Decision support only: check every result. Local policy and licensed judgement come first; no computed value is an order.';

/** Version of the installed package. */
export const softwareVersion: string = versionOf(
  JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')),
);

function versionOf(manifest: unknown): string {
  return typeof manifest === 'object' && manifest !== null && 'version' in manifest
    ? String(manifest.version)
    : '0.0.0';
}

/** What a site writes to send to the embedded server: it starts empty, so what a case refers to is sent along. */
export const SANDBOX_SETTINGS = `A destination for it, in the site configuration (as in examples/site.yaml):
  trial:
    url: http://127.0.0.1:PORT/fhir
    references: { patient: include, encounter: include, order: include, practitioner: include }
With --validating, casetally doctor --to trial says what it needs first.
`;
