import { describe, expect, it } from 'vitest';
import { textsOf } from '../../../src/findings/languages.js';
import type { PreparedCase } from '../../../src/pipeline/prepare.js';
import {
  exampleFiles,
  exampleText,
  fullSite,
  knownExample,
  preparedExample,
} from '../../support/examples.js';
import { isExplained, isExplainedLine, isFact, spare } from './facts.js';
import { type PaperLine, paperLines } from './paper.js';
import { type Leaf, leavesOf } from './resources.js';
import { missing, plain, pool, printed } from './words.js';

/**
 * A fact is a quantity with its unit, a date or time, an identifier of a device, a side, an end state, or a text that a
 * person wrote. Paper and resources are read apart, the paper from its HTML and text, the resources from the submission's
 * JSON, and laid side by side both ways. Exceptions stand in facts.ts, each with its reason.
 */
const cases = [
  ...exampleFiles,
  'pictures/drain-check.yaml',
  '../tests/support/born/contrast-reaction.yaml',
].map(file => [file, knownExample(file, fullSite)] as const);

/** The same with values that nobody typed. */
const sourced = [
  [
    'values from sources',
    preparedExample(
      'liver-biopsy.yaml',
      fullSite,
      `${exampleText('liver-biopsy.yaml')}
sources:
  - { path: case.kind, from: order, at: "2024-03-14T08:12:00Z", by: ORD-55 }
  - { path: "team[0]", from: form, at: "2024-03-14T08:14:00Z" }
`,
    ),
  ] as const,
];

const saidBy = ({ quantity, value }: Leaf) =>
  quantity ? printed(value, quantity.unit, quantity.code) : value;
const resourcePool = (leaves: readonly Leaf[]) =>
  pool(
    leaves.map(leaf =>
      leaf.quantity ? `${leaf.value} ${leaf.quantity.unit} | ${saidBy(leaf)}` : leaf.value,
    ),
  );

const words = textsOf('en-GB');
const sorted = (list: readonly string[]) => [...list].sort();

describe.each([...cases, ...sourced])('%s', (_, prepared) => {
  const lines = paperLines(prepared.reports.record.html);
  const leaves = leavesOf(prepared.submission);

  it('reads a whole report and a whole submission', () => {
    expect(lines.length).toBeGreaterThan(80);
    expect(leaves.filter(isFact).length).toBeGreaterThan(150);
  });

  it('has every fact of the resources on paper', () => {
    // What a volume comes to follows from the two figures beside it, which the paper has.
    const workedOut = / \([\d.]+ (?:mg|IU)(?: of \w+)?\)(?=,|$)/;
    const paper = pool(lines.map(line => line.text));
    const own = spare(prepared.record);
    const lost = leaves
      .filter(leaf => isFact(leaf) && !isExplained(leaf))
      .flatMap(leaf =>
        missing(
          leaf.path === 'dosage.text' ? leaf.value.replace(workedOut, '') : saidBy(leaf),
          paper,
          own,
        ).map(piece => `${leaf.type}.${leaf.path}: ${piece} | ${leaf.value}`),
      );
    expect(lost).toEqual([]);
  });

  it('has every fact of the paper in the resources', () => {
    const resources = resourcePool(leaves);
    const lost = lines
      .filter(line => !line.unsaid && !isExplainedLine(line, lines))
      .flatMap(line =>
        missing(line.text, resources).map(piece => `${line.section}, ${line.label}: ${piece} | ${line.text}`),
      );
    expect(lost).toEqual([]);
  });

  it('says in plain text every word that the page says', () => {
    const text = prepared.reports.record.text;
    // A long word is cut between lines, so that only what holds together is compared.
    const flat = text.toLowerCase().replace(/\s/g, '');
    const lost = lines
      .flatMap(line => line.text.split(' '))
      .filter(word => word.length < 20 && !flat.includes(word.toLowerCase()));
    expect(lost).toEqual([]);
  });

  it('has the same end state for every device and part', () => {
    const states = Object.keys(words)
      .filter(key => key.startsWith('state.'))
      .map(key => key.slice('state.'.length));
    const onPaper = lines
      .filter(line => line.section === 'devices' && line.label === 'End state')
      .flatMap(({ text }) => states.filter(state => text.includes(words[`state.${state}`] ?? 'missing')));
    const inResources = leaves
      .filter(leaf => leaf.type === 'Device' && leaf.path === 'note.text')
      .flatMap(leaf => states.filter(state => new RegExp(`^${state}(?: \\(\\d+\\))?:`).test(leaf.value)));
    expect(sorted(onPaper)).toEqual(sorted(inResources));
    expect(onPaper.length).toBeGreaterThan(0);
  });

  it('has the same sides, coded and printed', () => {
    const heads = lines
      .filter(
        ({ section, label }) =>
          (section === 'findings' && label === words['column.target']) ||
          (section === 'technique' && label === words['column.site']),
      )
      .map(line => line.text);
    // Behind the name, or where the name begins with it.
    const printedSides = heads.flatMap(
      text =>
        (/, (left|right|both sides)$/.exec(text) ?? /^(left|right) /i.exec(text))?.[1]?.toLowerCase() ?? [],
    );
    const coded = leaves
      .filter(leaf => leaf.type === 'BodyStructure' && leaf.path === 'locationQualifier.text')
      .map(leaf => (leaf.value === 'both' ? 'both sides' : leaf.value));
    expect(sorted(printedSides)).toEqual(sorted(coded));
  });

  it('gives the height as written on paper, and the same in cm', () => {
    const height = lines.find(line => line.label === words['label.height'])?.text;
    const cm = leaves.find(
      leaf =>
        leaf.type === 'Observation' && leaf.quantity?.unit === 'cm' && leaf.path === 'valueQuantity.value',
    );
    if (height === undefined) {
      expect(prepared.record.patient.height).toBeUndefined();
      return;
    }
    const meters = /^([\d.]+) m$/.exec(height)?.[1];
    if (meters === undefined) expect(resourcePool(leaves).text).toContain(plain(height));
    else expect(Number(cm?.value)).toBeCloseTo(Number(meters) * 100, 6);
  });
});

const file = 'ureteric-stent-tumour.yaml';

/** The example with one part of its text changed; the part must be there. */
function changed(from: RegExp, to: string): PreparedCase {
  const text = exampleText(file);
  if (!from.test(text)) throw new Error(`${file} does not hold ${from.source}`);
  return preparedExample(file, fullSite, text.replace(from, to));
}

const factsOf = (prepared: PreparedCase) => ({
  paper: paperLines(prepared.reports.record.html).map((line: PaperLine) => `${line.label}: ${line.text}`),
  resources: leavesOf(prepared.submission).map(leaf => `${leaf.type}.${leaf.path}: ${saidBy(leaf)}`),
});
const gained = (now: readonly string[], before: readonly string[]) =>
  now.filter(fact => !before.includes(fact));

const block = (name: string) =>
  new RegExp(`^( *)${name}:(?: .*|(?:\\n\\1 +.*|\\n *)+|(?:\\n\\1- .*|\\n\\1  .*)+)$`, 'm');

describe('none, not recorded and something are three different things, on paper and in the resources', () => {
  it.each([
    ['allergies', 'allergies', 'allergies: [{ to: latex }]', 'latex'],
    [
      'complications',
      'complications',
      'complications: [{ what: bleeding from the tract, severity: mild }]',
      'bleeding from the tract',
    ],
    [
      'contrast',
      'contrast',
      'contrast: [{ agent: iodixanol, volume: 20 mL, route: into a duct or tract }]',
      'iodixanol',
    ],
    ['radiation', 'radiation', 'radiation: { airKerma: 77 mGy }', '77 mGy'],
  ])('%s', (name, key, some, word) => {
    const indent = /^( *)/.exec(block(key).exec(exampleText(file))?.[0] ?? '')?.[1] ?? '';
    const given = factsOf(changed(block(key), `${indent}${some}`));
    const none = factsOf(changed(block(key), `${indent}${key}: none`));
    const absent = factsOf(changed(block(key), ''));
    for (const side of ['paper', 'resources'] as const) {
      expect(gained(given[side], none[side]).join('\n'), `${name}: said`).toContain(word);
      expect(gained(none[side], absent[side]), `${name}: none is not silence`).not.toEqual([]);
      expect(absent[side].join('\n'), `${name}: silence says nothing`).not.toContain(word);
    }
    // Paper must say that nobody recorded it; a resource that is not there says the same.
    expect(gained(absent.paper, none.paper)).not.toEqual([]);
  });
});

describe('one change in the record is one change on both sides', () => {
  const before = factsOf(knownExample(file, fullSite));
  it.each([
    ['a side', /side: left/, 'side: right', /\bright\b/],
    ['a unit', /(weight|creatinine|value): (\d+(?:\.\d+)?) (kg|µmol\/L)/, '$1: $2 g', /\b\d+(?:\.\d+)? g\b/],
  ] as const)('%s', (_, from, to, word) => {
    if (!from.test(exampleText(file))) throw new Error(`no ${from.source}`);
    const after = factsOf(changed(from, to));
    for (const side of ['paper', 'resources'] as const)
      expect(
        gained(after[side], before[side]).filter(fact => word.test(fact)),
        side,
      ).not.toEqual([]);
  });
});

it('a source is on paper and in the resources, and nowhere without one', () => {
  const [, prepared] = sourced[0] ?? [];
  const facts = prepared && factsOf(prepared);
  const plainFacts = factsOf(knownExample('liver-biopsy.yaml', fullSite));
  for (const side of ['paper', 'resources'] as const) {
    const more = gained(facts?.[side] ?? [], plainFacts[side]).join('\n');
    expect(more, side).toMatch(/order ORD-55/i);
    expect(more, side).toContain('Case: kind');
    expect(plainFacts[side].join('\n')).not.toContain('ORD-55');
  }
});

describe('the comparison itself finds what is lost', () => {
  const { paper } = factsOf(knownExample(file, fullSite));
  const resources = pool(factsOf(knownExample(file, fullSite)).resources);
  it.each([
    ['another number', 'iohexol 24 mL', ['24 ml']],
    ['another unit', 'Depth 10 mm', ['10 mm']],
    ['another name', 'Dr Someone Else', ['someone']],
    ['another date', '3 May 1999', ['1999-05-03']],
    ['another lot', 'Lot QX-99-LOST', ['qx-99-lost']],
  ])('%s', (_, text, parts) => {
    expect(missing(text, resources).join(' | ')).toContain(parts[0]);
    expect(missing(text, pool(paper)).join(' | ')).toContain(parts[0]);
  });
});
