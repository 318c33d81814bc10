/** Writes docs/mapping.md from the table of contents and the examples. */
import { writeFileSync } from 'node:fs';
import { mappingPage } from './mapping-page.js';

writeFileSync(new URL('../docs/mapping.md', import.meta.url), mappingPage());
