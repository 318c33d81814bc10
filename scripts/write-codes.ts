/** Writes the modules of src/fhir/codes that are made from scripts/codes/table.yaml. */
import { writeFileSync } from 'node:fs';
import { codeModules } from './codes/tables.js';

for (const [name, text] of codeModules())
  writeFileSync(new URL(`../src/fhir/codes/${name}`, import.meta.url), text);
