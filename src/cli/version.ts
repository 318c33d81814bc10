import { readFileSync } from 'node:fs';

/** Version of the installed package. */
export const softwareVersion: string = versionOf(
  JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')),
);

function versionOf(manifest: unknown): string {
  return typeof manifest === 'object' && manifest !== null && 'version' in manifest
    ? String(manifest.version)
    : '0.0.0';
}
