import { describe, expect, it } from 'vitest';
import { publishedExamples } from './corpus/examples.js';
import { explain, explanations } from './explained.js';
import { mutants, operators, type Pair } from './pairs.js';

/*
 * The agreement run itself needs a JDK and minutes; this holds its parts that need neither.
 */
const corpus = publishedExamples()
  .filter(ex => ex.id.startsWith('ips/') && ex.type !== 'Bundle')
  .slice(0, 16);

describe('mutation operators', () => {
  it('are many, and named once', () => {
    const names = operators.map(o => `${o.family}/${o.id}`);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThanOrEqual(40);
  });

  it('give the same mutants for the same seed, and others for another', () => {
    const texts = (seed: string) => mutants(corpus, seed, 2).map(p => `${p.id} ${p.text}`);
    expect(texts('1')).toEqual(texts('1'));
    expect(texts('2')).not.toEqual(texts('1'));
  });

  it('change what they are applied to, and leave the example alone', () => {
    const before = corpus.map(ex => JSON.stringify(ex.json));
    const originals = new Map(corpus.map(ex => [ex.id, JSON.stringify(ex.json)]));
    const same = mutants(corpus, '1', 2).filter(p => p.text === originals.get(p.example));
    expect(same.map(p => p.id)).toEqual([]);
    expect(corpus.map(ex => JSON.stringify(ex.json))).toEqual(before);
  });
});

describe('explanations', () => {
  const known = explanations();
  const pair: Pair = {
    id: 'x',
    family: 'reference',
    operator: 'wrong-target-type',
    example: 'r4/List-f201',
    where: 'subject',
    text: '{}',
    profiles: [],
  };
  const explained = {
    severity: 'error',
    path: 'List.subject',
    rule: 'reference-type',
    message: 'The reference points to a Slot; allowed: Patient',
  } as const;
  const other = {
    severity: 'error',
    path: 'List.status',
    rule: 'min',
    message: 'status is required',
  } as const;

  it('name operators that exist', () => {
    const names = new Set(operators.flatMap(o => [`${o.family}/${o.id}`, `${o.family}/*`]));
    expect(known.filter(e => e.operator !== '*' && !names.has(e.operator))).toEqual([]);
  });

  it('cover a disagreement only when they cover each of its errors', () => {
    expect(explain({ pair, side: 'stricter', issues: [explained] }, known)).toHaveLength(1);
    expect(explain({ pair, side: 'stricter', issues: [explained, other] }, known)).toBeUndefined();
    expect(explain({ pair, side: 'missed', issues: [explained] }, known)).toBeUndefined();
  });
});
