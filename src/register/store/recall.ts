import { inBatches, placesOf } from '../../delivery/outbox/statements.js';
import { grouped } from '../../record/grouped.js';
import type { RecallHit, RecallLine, UseSummary } from './register.js';

/** Reads uses by a condition of SQL with its parameters. */
type ReadUses = (where: string, params: readonly string[]) => Promise<readonly UseSummary[]>;

/**
 * The uses that lines of a recall meet, by line and then by use. A line is met by what it names; where one of these is
 * not known of a use whose identifier, or lot, or serial number fits, it cannot be excluded.
 */
export async function recallHits(lines: readonly RecallLine[], read: ReadUses): Promise<RecallHit[]> {
  const byKey = {
    di: await usesBy('di', lines, read),
    lot: await usesBy('lot', lines, read),
    serial: await usesBy('serial', lines, read),
  };
  return lines.flatMap(line => {
    const met = new Map<string, RecallHit>();
    for (const key of ['di', 'lot', 'serial'] as const) {
      const value = line[key];
      for (const use of value === undefined ? [] : (byKey[key].get(value) ?? [])) {
        const hit = hitOf(line, use);
        if (hit) met.set(use.id, hit);
      }
    }
    return [...met.values()].sort((a, b) => (a.use.id < b.use.id ? -1 : 1));
  });
}

/**
 * Uses by what lines name. What has the same lot, or number, is of a line with an identifier only where its own is not
 * known (one that is the same is found by it); a line without one means that lot of whatever device.
 */
async function usesBy(
  key: 'di' | 'lot' | 'serial',
  lines: readonly RecallLine[],
  read: ReadUses,
): Promise<Map<string, UseSummary[]>> {
  const wanted = [...new Set(lines.flatMap(line => line[key] ?? []))];
  const alone = new Set(lines.flatMap(line => (line.di === undefined ? (line[key] ?? []) : [])));
  const whatever = (value: string) => key === 'di' || alone.has(value);
  const parts = [
    { values: wanted.filter(whatever), of: '' },
    { values: wanted.filter(value => !whatever(value)), of: ' AND di IS NULL' },
  ];
  const rows: UseSummary[] = [];
  for (const { values, of } of parts)
    for (const some of inBatches(values))
      rows.push(...(await read(`${key} IN (${placesOf(some)})${of} AND state <> 'withdrawn'`, some)));
  return grouped(rows, row => row[key]);
}

function hitOf(line: RecallLine, use: UseSummary): RecallHit | undefined {
  const unknown: RecallHit['unknown'][number][] = [];
  if (line.di !== undefined) {
    if (use.di === undefined) unknown.push('identifier');
    else if (use.di !== line.di) return undefined;
  }
  for (const part of ['lot', 'serial'] as const) {
    const value = line[part];
    if (value === undefined) continue;
    if (use[part] === undefined) unknown.push(part);
    else if (use[part] !== value) return undefined;
  }
  if (line.expiresFrom !== undefined || line.expiresTo !== undefined) {
    if (use.expires === undefined) unknown.push('expiry');
    else if (!inRange(use.expires, line.expiresFrom, line.expiresTo)) return undefined;
  }
  const now = use.state === 'inside' || use.state === 'unknown';
  const answer = unknown.length > 0 ? 'perhaps' : now ? 'carries now' : 'carried';
  return { line: line.line, use, answer, unknown };
}

/** Dates of any precision: what may lie in the range counts as in it. */
function inRange(date: string, from: string | undefined, to: string | undefined): boolean {
  const starts = (a: string, b: string) => a.startsWith(b) || b.startsWith(a);
  const after = from === undefined || date >= from || starts(date, from);
  const before = to === undefined || date <= to || starts(date, to);
  return after && before;
}
