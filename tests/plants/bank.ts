import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { z } from 'zod';
import { catalogue } from '../../src/findings/catalogue.js';
import type { Finding } from '../../src/findings/finding.js';
import { messageOf } from '../../src/findings/finding.js';
import { assessParsed, type CheckedCase, checkCase } from '../../src/pipeline/check.js';
import { parseCaseData } from '../../src/record/parse.js';
import { readText } from '../../src/record/read.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { changesData, type Edit, edited, located, spelt } from './edit.js';

const folder = fileURLToPath(new URL('.', import.meta.url));

const values = z.record(z.string(), z.unknown());
const edits = {
  set: values.optional(),
  remove: z.array(z.string()).optional(),
  insert: values.optional(),
  rename: z.record(z.string(), z.string()).optional(),
  move: z.record(z.string(), z.string()).optional(),
  text: z.record(z.string(), z.string()).optional(),
};
const described = { say: z.string(), class: z.string() };
/** `code other-code @ path other-path`: any of the codes at or under any of the paths. */
const expectation = z.string().regex(/^[a-z][\w.-]*( [a-z][\w.-]*)* @ \S+( \S+)*$/);
const bankFile = z.strictObject({
  /** Codes of warnings that the case gives as it stands, each with a reason. */
  accepted: z.record(z.string(), z.string()).optional(),
  mistakes: z.array(z.strictObject({ ...described, ...edits, expect: expectation })),
  variants: z.array(z.strictObject({ ...described, ...edits })),
});
const codesFile = z.record(
  z.string(),
  z.strictObject({
    severity: z.enum(['error', 'warning', 'information']),
    means: z.string(),
    at: z.string(),
  }),
);

type Mistake = z.output<typeof bankFile>['mistakes'][number];
type Variant = z.output<typeof bankFile>['variants'][number];

/** One case with its mistakes and its harmless variants. */
export interface Base {
  readonly name: string;
  /** Not looked at by those who write rules. */
  readonly apart: boolean;
  readonly text: string;
  readonly accepted: readonly string[];
  readonly mistakes: readonly Mistake[];
  readonly variants: readonly Variant[];
}

/** Mistakes and variants of several cases in one file: a batch that was written before any of it was tried. */
const batchFile = z.strictObject({
  mistakes: z.array(bankFile.shape.mistakes.element.extend({ base: z.string() })),
  variants: z.array(bankFile.shape.variants.element.extend({ base: z.string() })),
});

/** Codes that the bank expects and the catalogue may not have yet. */
export const proposed = codesFile.parse(parse(readFileSync(`${folder}codes.yaml`, 'utf8')));

export const isKnownCode = (code: string) => Object.hasOwn(catalogue, code) || Object.hasOwn(proposed, code);

/** Every case of the bank with its plants. */
export function readBank(): readonly Base[] {
  return [...readOpen(), ...basesIn('kept-apart/', true)];
}

/** The cases that those who write rules may look at; their plants, or those of one batch alone. */
export function readOpen(only?: string): readonly Base[] {
  const batches = readdirSync(`${folder}batches`)
    .filter(file => only === undefined || file === `${only}.yaml`)
    .sort()
    .map(file => batchFile.parse(parse(readFileSync(`${folder}batches/${file}`, 'utf8'))));
  const bases = basesIn('', false);
  const known = new Set(bases.map(({ name }) => name));
  const stray = batches.flatMap(({ mistakes, variants }) => [...mistakes, ...variants]);
  for (const { base, say } of stray) if (!known.has(base)) throw new Error(`'${say}' is of no case: ${base}`);
  return bases.map(base => ({
    ...base,
    mistakes: [
      ...(only === undefined ? base.mistakes : []),
      ...batches.flatMap(({ mistakes }) => mistakes.filter(one => one.base === base.name)),
    ],
    variants: [
      ...(only === undefined ? base.variants : []),
      ...batches.flatMap(({ variants }) => variants.filter(one => one.base === base.name)),
    ],
  }));
}

function basesIn(under: string, apart: boolean): Base[] {
  return readdirSync(`${folder}${under}cases`)
    .sort()
    .map(file => {
      const read = bankFile.parse(parse(readFileSync(`${folder}${under}mistakes/${file}`, 'utf8')));
      return {
        name: file.replace(/\.yaml$/, ''),
        apart,
        text: readFileSync(`${folder}${under}cases/${file}`, 'utf8'),
        accepted: Object.keys(read.accepted ?? {}),
        mistakes: read.mistakes,
        variants: read.variants,
      };
    });
}

/** The day on which the bank is checked: after every case of it. */
const CHECKED = Date.parse('2026-11-28T00:00:00Z');

/** Everything found in a case that is worth a word to its author. */
export function foundIn(text: string): readonly Finding[] {
  return checkCase(text, unconfiguredSite, undefined, CHECKED).findings;
}

/** A base with an edit made: what was read of it, and what the check makes of it. */
interface Tried {
  readonly data: unknown;
  readonly checked: CheckedCase;
}

/** Reading and writing text takes longer than checking: only slips of the keyboard go through it. */
function checkEdited(base: Base, edit: Edit): Tried {
  const text = spelt(base.text, edit);
  if (!changesData(edit)) {
    const checked = checkCase(text, unconfiguredSite, undefined, CHECKED);
    return { data: readText(text).tree, checked };
  }
  const data = edited(treeOf(text), edit);
  return { data, checked: assessParsed(parseCaseData(data), unconfiguredSite, undefined, CHECKED) };
}

/** A base is edited many times in a row. */
let latest: { readonly text: string; readonly tree: object } | undefined;

/** What stands in a text that can be read. */
function treeOf(text: string): object {
  if (latest?.text !== text) {
    const { tree, findings } = readText(text);
    if (typeof tree !== 'object' || findings.length > 0) throw new Error('this text cannot be read');
    latest = { text, tree };
  }
  return latest.tree;
}

interface Expected {
  readonly codes: readonly string[];
  readonly paths: readonly string[];
}

export function readExpected({ expect }: Pick<Mistake, 'expect'>): Expected {
  const [codes = '', paths = ''] = expect.split(' @ ');
  return { codes: codes.split(' '), paths: paths.split(' ') };
}

/** Whether an expected finding comes at an expected place, and did not come without the mistake. */
export function isCaught(base: Base, mistake: Mistake, before: readonly Finding[]): boolean {
  const { data, checked } = checkEdited(base, mistake);
  const { codes, paths } = readExpected(mistake);
  const places = located(data, paths);
  const matching = (found: readonly Finding[]) =>
    found.filter(f => codes.includes(f.code) && places.some(place => isUnder(f.path, place)));
  const known = new Set(matching(before).map(sameness));
  return matching(checked.findings).some(f => !known.has(sameness(f)));
}

/** Codes of warnings and errors that a harmless variant gives more often than its base, and whether it is a whole record. */
export function falseAlarms(
  base: Base,
  variant: Edit,
  before: readonly Finding[],
): { readonly codes: readonly string[]; readonly whole: boolean } {
  const counts = countByCode(before);
  const { record, findings } = checkEdited(base, variant).checked;
  const codes = [...countByCode(findings)]
    .filter(([code, count]) => count > (counts.get(code) ?? 0))
    .map(([code]) => code);
  return { codes, whole: record !== undefined };
}

/** Codes of warnings and errors of the case as it stands that it does not account for. */
export function unaccepted(base: Base, before: readonly Finding[]): readonly string[] {
  return [...countByCode(before).keys()].filter(code => !base.accepted.includes(code));
}

const isUnder = (path: string, place: string) =>
  path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`);

const sameness = (f: Finding) => `${f.code} ${f.path} ${messageOf(f)}`;

function countByCode(found: readonly Finding[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { code, severity, acknowledged } of found)
    if (severity !== 'information' && !acknowledged) counts.set(code, (counts.get(code) ?? 0) + 1);
  return counts;
}
