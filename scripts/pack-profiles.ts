/** Packs `profiles/` as a FHIR package, for `casetally packages write`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { packageBytes } from './profiles/package.js';
import { packageName, root } from './profiles/source.js';

const out = new URL('profiles/compiled/', root);
const bytes = packageBytes();
mkdirSync(out, { recursive: true });
writeFileSync(new URL(`${packageName}.tgz`, out), bytes);
console.log(`profiles/compiled/${packageName}.tgz: ${(bytes.length / 1000).toFixed(0)} kB`);
