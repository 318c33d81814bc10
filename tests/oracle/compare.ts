import { isError, type OracleIssue, type Verdict } from './oracles/oracle.js';
import type { Pair } from './pairs.js';

/** Counts of error/no error verdicts of two validators over the same texts. */
export interface Cell {
  both: number;
  /** Of `both`: pairs where an error of ours stands at, above or below the place of an error of the oracle. */
  samePlace: number;
  neither: number;
  oursOnly: number;
  oracleOnly: number;
  /** The oracle crashed. */
  silent: number;
}

export interface Disagreement {
  readonly pair: Pair;
  readonly side: 'missed' | 'stricter';
  /** The errors of the side that has them. */
  readonly issues: readonly OracleIssue[];
}

export interface Comparison {
  readonly families: ReadonlyMap<string, Cell>;
  readonly total: Cell;
  readonly disagreements: readonly Disagreement[];
}

const emptyCell = (): Cell => ({ both: 0, samePlace: 0, neither: 0, oursOnly: 0, oracleOnly: 0, silent: 0 });

export function compare(
  pairs: readonly Pair[],
  ours: readonly Verdict[],
  oracle: readonly Verdict[],
): Comparison {
  const families = new Map<string, Cell>();
  const total = emptyCell();
  const disagreements: Disagreement[] = [];
  pairs.forEach((pair, i) => {
    const mine = ours[i];
    const theirs = oracle[i];
    if (!mine || !theirs) throw new Error(`no verdict on ${pair.id}`);
    const cell = families.get(pair.family) ?? emptyCell();
    families.set(pair.family, cell);
    const outcome = outcomeOf(mine, theirs);
    cell[outcome]++;
    total[outcome]++;
    if (outcome === 'both' && meet(mine, theirs)) {
      cell.samePlace++;
      total.samePlace++;
    }
    if (outcome === 'oursOnly') disagreements.push({ pair, side: 'stricter', issues: errorsOf(mine) });
    if (outcome === 'oracleOnly') disagreements.push({ pair, side: 'missed', issues: errorsOf(theirs) });
  });
  return { families, total, disagreements };
}

function outcomeOf(mine: Verdict, theirs: Verdict): Exclude<keyof Cell, 'samePlace'> {
  if (theirs.failure !== undefined) return 'silent';
  // A crash of ours is never a match: it counts against us whatever the oracle says.
  const mineHas = mine.failure === undefined ? isError(mine) : !isError(theirs);
  if (mineHas) return isError(theirs) ? 'both' : 'oursOnly';
  return isError(theirs) ? 'oracleOnly' : 'neither';
}

function meet(mine: Verdict, theirs: Verdict): boolean {
  const places = errorsOf(theirs).map(issue => bare(issue.path));
  return errorsOf(mine).some(issue => {
    const here = bare(issue.path);
    return places.some(
      there =>
        `${here}.`.startsWith(`${there}.`) ||
        `${there}.`.startsWith(`${here}.`) ||
        here === '' ||
        there === '',
    );
  });
}

/** A path without what the validators write differently: indexes, resource ids, choice types; '' when it is no path. */
function bare(path: string): string {
  const names = path.replace(/\/\*.*?\*\/|\[[^\]]*\]|\.ofType\(\w+\)/g, '');
  return /^[A-Z]/.test(names) ? names : '';
}

function errorsOf(verdict: Verdict): OracleIssue[] {
  if (verdict.failure !== undefined)
    return [{ severity: 'fatal', path: '', message: verdict.failure, rule: 'crash' }];
  return verdict.issues.filter(issue => issue.severity === 'error' || issue.severity === 'fatal');
}

/** Share of equal verdicts, leaving out crashed pairs and, where given, so many explained disagreements. */
export function agreement(cell: Cell, explained = 0): number {
  const judged = cell.both + cell.neither + cell.oursOnly + cell.oracleOnly - explained;
  return judged === 0 ? 1 : (cell.both + cell.neither) / judged;
}

/**
 * The same share with `decided` disagreements counted as equal: those in which the oracle is wrong by the
 * standard's own words. Nothing leaves the count, so all other disagreements lower it.
 */
export function decidedAgreement(cell: Cell, decided: number): number {
  const judged = cell.both + cell.neither + cell.oursOnly + cell.oracleOnly;
  return judged === 0 ? 1 : (cell.both + cell.neither + decided) / judged;
}
