/** Writes docs/findings.md from the message catalogue. */
import { writeFileSync } from 'node:fs';
import { findingsPage } from './findings-page.js';

writeFileSync(new URL('../docs/findings.md', import.meta.url), findingsPage());
