import { readdirSync } from 'node:fs';
import { expect, it } from 'vitest';

const folder = new URL('../../../src/devices/labels/', import.meta.url);
const names = readdirSync(folder).filter(name => name.endsWith('.ts'));

// Some make their tables when they are loaded. Loaded within a test, a table that cannot be made fails it.
it.each(names)('%s can be loaded', async name => {
  const module: unknown = await import(new URL(name, folder).href);
  expect(module).toBeTypeOf('object');
});
