import { readdirSync, readFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { type PreparedCase, prepareCase, type Tools } from '../../src/pipeline/prepare.js';
import { loadTools } from '../../src/pipeline/tools.js';
import { type Site, unconfiguredSite } from '../../src/site/site.js';

export const examplesFolder = join(import.meta.dirname, '..', '..', 'examples');

/** Whole example cases; the one with planted mistakes is apart. */
/** Path of a file of the examples. */
export const examplePath = (name: string): string => join(examplesFolder, name);

export const exampleFiles: readonly string[] = readdirSync(examplesFolder)
  .filter(name => /\.(?:yaml|json)$/.test(name) && !/^(?:site|mistaken)/.test(name))
  .sort();

export const exampleName = (file: string): string => basename(file, extname(file));

export const exampleText = (file: string): string => readFileSync(join(examplesFolder, file), 'utf8');

let tools: Tools | undefined;

/** A site whose destinations want everything, staff and rooms as well. */
export const fullSite: Site = {
  ...unconfiguredSite,
  references: {
    ...unconfiguredSite.references,
    ...{ practitioner: 'include', organization: 'include', location: 'include' },
  },
  fhir: { ...unconfiguredSite.fhir, contents: 'full' },
};

/** Templates and definitions, loaded once a test file. The version is fixed so that golden files outlive releases. */
export function testTools(): Tools {
  tools ??= loadTools('0.0.0-test');
  return tools;
}

/** Prepares an example as the command line does. */
export function preparedExample(
  file: string,
  site: Site = unconfiguredSite,
  text: string = exampleText(file),
): PreparedCase {
  const { record, assessment, findings } = checkCase(text, site);
  if (!record || !assessment) throw new Error(`${file}: ${findings.map(f => messageOf(f)).join('; ')}`);
  return prepareCase(record, assessment, site, testTools());
}

const known = new WeakMap<Site, Map<string, PreparedCase>>();

/**
 * The same, made once for all tests of a process: for those that only read it. Not for a test of whether the same input
 * gives the same again.
 */
export function knownExample(file: string, site: Site = unconfiguredSite): PreparedCase {
  const ofSite = known.get(site) ?? new Map<string, PreparedCase>();
  known.set(site, ofSite);
  const prepared = ofSite.get(file) ?? preparedExample(file, site);
  ofSite.set(file, prepared);
  return prepared;
}
