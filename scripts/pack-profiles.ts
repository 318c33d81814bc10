/** Packs `profiles/` as a FHIR package into `out/`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { packageBytes } from './profiles/package.js';
import { packageName, root, version } from './profiles/source.js';

const out = new URL('out/', root);
const name = `${packageName}-${version()}.tgz`;
const bytes = packageBytes();
mkdirSync(out, { recursive: true });
writeFileSync(new URL(name, out), bytes);
console.log(`out/${name}: ${(bytes.length / 1000).toFixed(0)} kB`);
