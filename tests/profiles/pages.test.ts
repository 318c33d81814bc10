import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { profilePages } from '../../scripts/profiles/page.js';
import { sources } from '../../scripts/profiles/source.js';

it('docs/profiles is current; `npm run docs` renews it', () => {
  const folder = new URL('../../docs/profiles/', import.meta.url);
  const kept = readdirSync(folder).map(name => [name, readFileSync(new URL(name, folder), 'utf8')] as const);
  expect(new Map(kept)).toEqual(profilePages(sources()));
});
