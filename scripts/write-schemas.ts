/** Writes the JSON Schemas of the case record, of kits and of the site configuration to the project's root, for editors. */
import { writeFileSync } from 'node:fs';
import { kitJsonSchema } from '../src/intake/kits/schema.js';
import { caseRecordJsonSchema } from '../src/record/json-schema.js';
import { siteJsonSchema } from '../src/site/json-schema.js';

const write = (name: string, schema: object) =>
  writeFileSync(new URL(`../${name}`, import.meta.url), `${JSON.stringify(schema, null, 2)}\n`);

write('case-record.schema.json', caseRecordJsonSchema());
write('site.schema.json', siteJsonSchema());
write('kit.schema.json', kitJsonSchema());
