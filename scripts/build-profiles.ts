/** Writes docs/profiles from `profiles/`. */
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { profilePages } from './profiles/page.js';
import { root, sources } from './profiles/source.js';

const out = new URL('docs/profiles/', root);
const pages = profilePages(sources());
mkdirSync(out, { recursive: true });
for (const name of readdirSync(out)) if (!pages.has(name)) rmSync(new URL(name, out));
for (const [name, page] of pages) writeFileSync(new URL(name, out), page);
console.log(`docs/profiles: ${pages.size} pages`);
