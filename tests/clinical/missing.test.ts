import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { assess } from '../../src/clinical/assess.js';
import { messageOf } from '../../src/findings/finding.js';
import { recordSchema } from '../../src/record/schema/record.js';
import { english } from '../support/english.js';
import { runsAll, sampled } from '../support/sampled.js';
import { parseCase } from '../support/source.js';

/** Findings that may appear because something is not there: each says so. */
const ABSENCE = new Set([
  'clinical.lab-missing',
  'clinical.strength-missing',
  'clinical.weight-missing',
  'clinical.hold-unknown',
  'clinical.pregnancy-not-asked',
  'clinical.egfr-not-assessed',
  'clinical.fasting-not-recorded',
  'clinical.grade-missing',
  'clinical.left-without-aftercare',
  'clinical.capped-without-criteria',
  'clinical.setting-without-criteria',
  'clinical.contact-missing',
  'clinical.criterion-value',
  'clinical.session-without-earlier',
  'clinical.skin-review-missing',
]);

/**
 * Taking one fact away can uncover another that was there all along (the last laboratory value gone, the one before it
 * counts). These are judged on what remains, not on what is missing.
 */
const REMAINS: readonly { code: string; gone: RegExp }[] = [
  // Limb artery work is classified by its sheath: without one the note says so.
  { code: 'clinical.bleeding-class-unknown', gone: /^devices/ },
  // An older laboratory value takes the place of the last one.
  { code: 'clinical.lab-old', gone: /^before\.labs/ },
  { code: 'clinical.lab-threshold', gone: /^before\.labs/ },
  { code: 'clinical.kidney-injury', gone: /^before\.labs/ },
  // Without the condition or the kind of access that changed the threshold, the plain one holds.
  { code: 'clinical.lab-threshold', gone: /^(?:before\.conditions|indication\.conditions)/ },
  { code: 'clinical.egfr-contrast', gone: /^(?:before\.conditions|indication\.conditions)/ },
  // The dose before access gone, the one after it is the first.
  { code: 'clinical.prophylaxis-late', gone: /^drugs|^events/ },
  // A crossing that succeeded gone, the one that failed is left; closing by an embolic device no longer known.
  { code: 'clinical.success-differs', gone: /^events|^devices/ },
  // One of two places that tell of the same thing gone, the other says that something is missing there.
  { code: 'clinical.contrast-differs', gone: /^contrast/ },
  { code: 'clinical.radiation-unsaid', gone: /^radiation/ },
  { code: 'clinical.side-missing', gone: /^targets/ },
  { code: 'clinical.complication-unsaid', gone: /^complications/ },
  { code: 'clinical.closure-differs', gone: /^devices|^events/ },
  { code: 'clinical.kind-differs', gone: /^devices|^events/ },
  { code: 'clinical.aftercare-device-out', gone: /^events/ },
  { code: 'clinical.specimen-differs', gone: /^events/ },
  // A text still tells of what was taken out of the lists.
  { code: 'clinical.measurement-differs', gone: /^devices|^events|^targets/ },
  { code: 'clinical.device-unlisted', gone: /^devices/ },
  { code: 'clinical.drug-unsaid', gone: /^drugs/ },
];

type Tree = { [key: string]: unknown };

/** What no clinical rule reads: left out, so that the test takes seconds. */
const UNREAD =
  /^(?:team|images|findings|advice|conclusion|report|acknowledged|specimens|\$schema|case\.(?:organization|location|order|encounter|accession))\b|\.(?:codes|note|maker|model|reference|description|label|lot|serial|udi|mri|parts|fixedBy|result|image|specimen|by|guidance|text)\b/;

/** Every path to a value of the record, groups and entries of lists included. */
function paths(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  const here = path.length > 0 ? [path] : [];
  if (Array.isArray(value)) return [...here, ...value.flatMap((entry, i) => paths(entry, [...path, i]))];
  if (value !== null && typeof value === 'object')
    return [...here, ...Object.entries(value).flatMap(([key, entry]) => paths(entry, [...path, key]))];
  return here;
}

/** The first, middle and last of the values that stand in the same field of a list or of several devices. */
function spread(all: readonly (readonly (string | number)[])[]): (readonly (string | number)[])[] {
  const byField = new Map<string, (readonly (string | number)[])[]>();
  for (const path of all) {
    const field = path
      .map(step => (typeof step === 'number' ? '*' : step))
      .join('.')
      .replace(/^(devices|targets)\.[^.]+/, '$1.*');
    byField.set(field, [...(byField.get(field) ?? []), path]);
  }
  return [...byField.values()].flatMap(same =>
    same.filter((_, at) => at === 0 || at === same.length >> 1 || at === same.length - 1),
  );
}

function without(tree: Tree, path: readonly (string | number)[]): Tree {
  const copy = structuredClone(tree);
  let at: unknown = copy;
  for (const step of path.slice(0, -1)) at = (at as Tree)[step];
  const last = path.at(-1);
  if (Array.isArray(at)) at.splice(Number(last), 1);
  else if (last !== undefined) delete (at as Tree)[last];
  return copy;
}

const folder = join(import.meta.dirname, '..', '..', 'examples');
const examples = readdirSync(folder).filter(
  name => /\.(?:yaml|json)$/.test(name) && !['site.yaml', 'mistaken.yaml'].includes(name),
);

// Made once, since making it costs more than reading a record: the date and zone of the one at hand are put in.
const frame: { date?: string | undefined; timeZone?: string | undefined; started?: string | undefined } = {};
const schema = recordSchema(frame);

const codesOf = (tree: Tree): Map<string, string> | undefined => {
  const { date, timeZone, started } = (tree['case'] ?? {}) as Record<string, string | undefined>;
  Object.assign(frame, { date, timeZone, started });
  const read = schema.safeParse(tree);
  if (!read.success) return undefined;
  const found = assess(read.data).findings.filter(f => f.code.startsWith('clinical.'));
  return new Map(found.map(f => [f.code, `${f.code} ${f.path}: ${messageOf(f)}`]));
};

// Fields of every example that a clinical rule may read are taken away in turn: hundreds of records in all.
describe('a missing input raises nothing but a word that it is missing', () => {
  it.each(examples)('%s', name => {
    const tree = parse(readFileSync(join(folder, name), 'utf8')) as Tree;
    const whole = codesOf(tree);
    expect(whole).toBeDefined();
    let tried = 0;
    const places = spread(paths(tree).filter(path => !UNREAD.test(path.join('.'))));
    for (const path of sampled(`taken away from ${name}`, places, 6)) {
      const copy = without(tree, path);
      const codes = codesOf(copy);
      if (!codes) continue;
      tried++;
      const gone = path.join('.');
      const raised = [...codes]
        .filter(([code]) => !whole?.has(code) && !ABSENCE.has(code))
        .filter(([code]) => !REMAINS.some(rule => rule.code === code && rule.gone.test(gone)))
        .map(([, text]) => `without ${gone}: ${text}`);
      expect(raised).toEqual([]);
    }
    expect(tried).toBeGreaterThan(runsAll ? 100 : 15);
  });
});

describe('every calculation has a result or a reason, and its inputs lead into the record', () => {
  it.each(examples)('%s', name => {
    const text = readFileSync(join(folder, name), 'utf8');
    const { record, locate } = parseCase(text);
    if (!record) throw new Error(name);
    const { calculations } = assess(record);
    expect(calculations.length).toBeGreaterThan(3);
    expect(new Set(calculations.map(c => c.key)).size).toBe(calculations.length);
    for (const calculation of calculations) {
      expect(Number(calculation.result !== undefined) + Number(calculation.notAssessed !== undefined)).toBe(
        1,
      );
      expect(english(calculation.basis)).not.toBe('');
      expect(english(calculation.rule)).not.toBe('');
      for (const { path } of calculation.inputs)
        if (path !== undefined) expect(locate(path), `${calculation.key}: ${path}`).toBeDefined();
    }
  });
});
