import type { Include, ValueSet } from '../definitions/model.js';
import type { Codes } from './code-system.js';
import { filtered } from './filters.js';
import { grammarVerdict } from './grammars.js';
import { UCUM, unitProblem } from './units.js';

/** Whether a code belongs to a value set; `unknown` when the package cannot tell, with the reason. */
export type Answer = { readonly is: 'in' | 'out' } | { readonly is: 'unknown'; readonly reason: string };

export const IN: Answer = { is: 'in' };
const OUT: Answer = { is: 'out' };

/** What a value set needs to look up. */
export interface Sources {
  codes(system: string): Codes | undefined;
  members(valueSet: string): Membership | undefined;
}

type Clause = (system: string | undefined, code: string) => Answer;

/** A value set ready for questions. `system` undefined means: in any system, as for an element of type code. */
export class Membership {
  readonly valueSet: ValueSet;
  private readonly includes: readonly Clause[];
  private readonly excludes: readonly Clause[];

  constructor(valueSet: ValueSet, sources: Sources) {
    this.valueSet = valueSet;
    const clauses = (rows: readonly Include[]) => rows.map(row => clauseOf(row, sources));
    this.includes = [...clauses(valueSet.include), ...clauses(valueSet.expansion ?? [])];
    this.excludes = clauses(valueSet.exclude ?? []);
  }

  test(system: string | undefined, code: string): Answer {
    const included = anyOf(this.includes, system, code);
    if (included.is === 'out') return OUT;
    const excluded = anyOf(this.excludes, system, code);
    if (excluded.is === 'in') return OUT;
    return included.is === 'in' && excluded.is === 'unknown' ? excluded : included;
  }

  /** Display that the value set itself gives a code. */
  display(system: string, code: string): string | undefined {
    for (const row of this.valueSet.include) {
      if (row.system !== system) continue;
      const display = row.concept?.find(c => c.code === code)?.display;
      if (display !== undefined) return display;
    }
    return undefined;
  }

  /** A few codes, for a hint; nothing when the set is not written out. */
  some(sources: Sources): string[] {
    const found: string[] = [];
    for (const row of this.valueSet.include) {
      if (row.filter || row.system === undefined) return [];
      const concepts = row.concept ?? sources.codes(row.system)?.system.concept ?? [];
      found.push(...concepts.slice(0, 12).map(c => c.code));
    }
    return found;
  }
}

function anyOf(clauses: readonly Clause[], system: string | undefined, code: string): Answer {
  let answer: Answer = OUT;
  for (const clause of clauses) {
    const one = clause(system, code);
    if (one.is === 'in') return IN;
    if (one.is === 'unknown') answer = one;
  }
  return answer;
}

/** One include or exclude: all its parts must hold. */
function clauseOf(row: Include, sources: Sources): Clause {
  const parts: Clause[] = [];
  if (row.system !== undefined) parts.push(systemClause(row, row.system, sources));
  for (const canonical of row.valueSet ?? []) {
    const members = sources.members(canonical);
    parts.push((system, code) =>
      members ? members.test(system, code) : unknown(`the value set ${canonical} is not loaded`),
    );
  }
  return (system, code) => {
    let answer: Answer = parts.length > 0 ? IN : OUT;
    for (const part of parts) {
      const one = part(system, code);
      if (one.is === 'out') return OUT;
      if (one.is === 'unknown') answer = one;
    }
    return answer;
  };
}

function systemClause(row: Include, own: string, sources: Sources): Clause {
  const test = contentTest(row, own, sources);
  return (system, code) => (system === undefined || system === own ? test(code) : OUT);
}

function contentTest(row: Include, system: string, sources: Sources): (code: string) => Answer {
  const codes = sources.codes(system);
  if (row.concept) {
    const listed = new Set(row.concept.map(c => c.code));
    return code => (listed.has(code) ? IN : OUT);
  }
  if (row.filter) {
    if (!codes?.complete) return () => unknown(`${system} is not held completely`);
    const found = filtered(codes, row.filter);
    return typeof found === 'string' ? () => unknown(found) : code => (found.has(code) ? IN : OUT);
  }
  if (codes?.complete) return code => (codes.find(code) ? IN : OUT);
  if (system === UCUM) return code => (unitProblem(code) === undefined ? IN : OUT);
  return code => {
    if (codes?.find(code)) return IN;
    const verdict = grammarVerdict(system, code);
    if (verdict !== undefined) return verdict ? IN : OUT;
    return unknown(`${system} is not held ${codes ? 'completely' : 'at all'}`);
  };
}

function unknown(reason: string): Answer {
  return { is: 'unknown', reason };
}
