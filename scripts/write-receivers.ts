/** Writes docs/receivers.md: how what we send does by profiles that others publish. */
import { writeFileSync } from 'node:fs';
import { receiversPage } from './receivers-page.js';

writeFileSync(new URL('../docs/receivers.md', import.meta.url), receiversPage());
console.log('docs/receivers.md');
