import { drugIn } from './drug-lines.js';
import { isPlace } from './table/which.js';
import type { Clause } from './text/clauses.js';

/** Clauses that say something only together. */
export function joined(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  shareVerbs(clauses);
  carryPlace(clauses);
  for (const clause of clauses) {
    if (clause.tokens.length === 0) continue;
    const last = out.at(-1);
    if (last && isRun(last, clause)) out.pop();
    if (last && isDose(last, clause)) {
      last.tokens.push(...clause.tokens);
      last.nouns.push(...clause.nouns);
      last.amounts.push(...clause.amounts);
      continue;
    }
    out.push(clause);
  }
  return out;
}

/** `left CFA, needle in`: where it goes in was said before. */
function carryPlace([first, next]: readonly Clause[]): void {
  const [place, ...more] = first?.nouns ?? [];
  if (!first || !next || !place || more.length > 0 || !isBare(first) || !isPlace(place)) return;
  const enters =
    next.particles.has('in') || next.acts.some(({ act }) => act === 'puncture' || act === 'insert');
  if (!enters || next.nouns.some(({ preposition }) => preposition === 'into' || preposition === 'in')) return;
  next.nouns.push({ tokens: place.tokens, preposition: 'into' });
  next.tokens.unshift(...first.tokens);
  first.tokens.length = 0;
  first.nouns.length = 0;
}

const isBare = ({ acts, particles, amounts, nouns, tokens }: Clause) =>
  acts.length === 0 &&
  particles.size === 0 &&
  amounts.length === 0 &&
  nouns.length > 0 &&
  nouns.every(({ preposition }) => preposition === undefined) &&
  tokens.every(({ entry }) => entry === undefined || /^(?:article|filler|pointing|which)$/.test(entry.role));

const isThing = ({ preposition }: Clause['nouns'][number]) => preposition === undefined;

/**
 * `balloon, catheter and wire out over the stiff one`: all are out. What has no verb of its own goes with what it is
 * joined to, before it (`removed the balloon and the wire`) or after.
 */
function shareVerbs(clauses: readonly Clause[]): void {
  let list = false;
  for (let index = clauses.length - 2; index >= 0; index--) {
    const clause = clauses[index] as Clause;
    const next = clauses[index + 1] as Clause;
    const joins: boolean = next.joint === 'and' || (list && next.joint === 'comma');
    const claims = next.nouns.some(isThing) && (next.acts.length > 0 || next.particles.size > 0);
    list = isBare(clause) && joins && claims && !drugIn(clause);
    if (!list) continue;
    clause.acts.push(...next.acts);
    for (const one of next.particles) clause.particles.add(one);
    clause.nouns.push(...next.nouns.filter(noun => !isThing(noun)));
    clause.tokens.push(
      ...next.tokens.filter(({ entry }) => entry?.role === 'doubt' || entry?.role === 'act'),
    );
  }
  clauses.forEach((clause, index) => {
    const before = clauses[index - 1];
    const last = before?.nouns.at(-1);
    if (!before || clause.joint !== 'and' || !isBare(clause) || drugIn(clause)) return;
    const done = before.acts.length > 0 && last !== undefined && isThing(last);
    if (
      !done ||
      before.tokens.at(-1) !== last.tokens.at(-1) ||
      before.acts.some(({ act }) => act === 'exchange')
    )
      return;
    clause.acts.push(...before.acts);
    for (const one of before.particles) clause.particles.add(one);
    clause.tokens.push(...before.tokens.filter(({ entry }) => entry?.role === 'doubt'));
  });
}

/** `angiogram, 10 mL of contrast`: the run is the injection. */
function isRun(last: Clause, clause: Clause): boolean {
  return (
    last.acts.length === 1 &&
    last.acts[0]?.act === 'image' &&
    clause.tokens.some(
      ({ entry, text }) => (entry?.role === 'fluid' && !entry.out) || /^io\w+ol$/i.test(text),
    ) &&
    clause.acts.length === 0 &&
    last.tokens.every(({ entry }) => entry?.role !== 'doubt')
  );
}

const isGiven = ({ piece }: Clause['tokens'][number]) =>
  piece?.is === 'amount' && /^(?:volume|dose|mass)$/.test(piece.dimension);

/** `lidocaine one percent, ten mils to skin`: the dose follows the drug. */
function isDose(last: Clause, clause: Clause): boolean {
  return (
    drugIn(last) !== undefined &&
    !last.tokens.some(isGiven) &&
    clause.joint === 'comma' &&
    clause.tokens[0] !== undefined &&
    isGiven(clause.tokens[0]) &&
    clause.acts.length === 0 &&
    drugIn(clause) === undefined
  );
}
