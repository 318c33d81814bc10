import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { agreement, type Cell, type Comparison, type Disagreement } from './compare.js';
import type { Explanation } from './explained.js';

export const percent = (share: number) => `${(100 * share).toFixed(2)} %`;

/** The confusion matrix of one oracle, a row a rule family. */
export function matrix(oracle: string, comparison: Comparison): string {
  const row = (name: string, c: Cell) => [
    name,
    c.both,
    c.samePlace,
    c.neither,
    c.oursOnly,
    c.oracleOnly,
    c.silent,
    percent(agreement(c)),
  ];
  const rows = [
    [
      'rule family',
      'both error',
      'same place',
      'both clean',
      'ours only',
      `${oracle} only`,
      'no verdict',
      'agreement',
    ],
    ...[...comparison.families].map(([name, cell]) => row(name, cell)),
    row('all', comparison.total),
  ].map(cells => cells.map(String));
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map(cells => cells[column]?.length ?? 0)),
  );
  const line = (cells: string[]) =>
    cells
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
      .join('  ');
  return [`ours and ${oracle}`, ...rows.map(line)].join('\n');
}

const folder = join(import.meta.dirname, 'out');

/** Writes every disagreement with one oracle, grouped by operator; returns the file. */
export function list(
  oracle: string,
  disagreements: readonly Disagreement[],
  reasonFor: (disagreement: Disagreement) => readonly Explanation[] | string | undefined,
): string {
  const groups = new Map<string, Disagreement[]>();
  for (const d of disagreements) {
    const key = `${d.pair.family}/${d.pair.operator} (${d.side === 'missed' ? `${oracle} only` : 'ours only'})`;
    groups.set(key, [...(groups.get(key) ?? []), d]);
  }
  const lines = [`# Disagreements with ${oracle}: ${disagreements.length}`];
  for (const [key, members] of [...groups].sort(([a], [b]) => (a < b ? -1 : 1))) {
    lines.push('', `## ${key}: ${members.length}`);
    for (const member of members)
      lines.push(
        `- ${member.pair.example} ${member.pair.where}${reason(reasonFor(member))}`,
        ...issuesOf(member),
      );
  }
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `${oracle.replace(/\W+/g, '-').replace(/^-/, '')}.md`);
  writeFileSync(file, `${lines.join('\n')}\n`);
  return file;
}

function reason(given: readonly Explanation[] | string | undefined): string {
  if (given === undefined) return ' — NOT EXPLAINED';
  return ` — ${typeof given === 'string' ? given : given.map(e => e.reason).join(' ')}`;
}

function issuesOf({ issues }: Disagreement): string[] {
  return issues
    .slice(0, 4)
    .map(i => `  - ${i.severity} ${i.path} [${i.rule ?? ''}] ${i.message.slice(0, 240)}`);
}
