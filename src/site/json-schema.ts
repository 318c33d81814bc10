import { z } from 'zod';
import { siteSchema } from './site.js';

/** The site configuration as JSON Schema (draft 2020-12), for editors. */
export function siteJsonSchema(): Record<string, unknown> {
  return {
    ...z.toJSONSchema(siteSchema, { io: 'input', reused: 'ref' }),
    $id: 'urn:casetally:site:1',
    title: 'Casetally site configuration, version 1',
  };
}
