import type { RecallHit, RecallLine, UseSummary } from './register.js';

/** Reads uses by a condition of SQL with its parameters. */
type ReadUses = (where: string, params: readonly string[]) => Promise<readonly UseSummary[]>;

/** How many values are asked for in one statement. */
const BATCH = 500;

/**
 * The uses that lines of a recall meet, by line and then by use. A line is met by what it names; where one of these is
 * not known of a use whose identifier, or lot, or serial number fits, it cannot be excluded.
 */
export async function recallHits(lines: readonly RecallLine[], read: ReadUses): Promise<RecallHit[]> {
  const byKey = {
    di: await usesBy('di', lines, read),
    lot: await usesBy(
      'lot',
      lines.filter(({ serial, lot }) => lot !== undefined || serial === undefined),
      read,
    ),
    serial: await usesBy('serial', lines, read),
  };
  const hits = lines.flatMap(line => {
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
  return hits;
}

async function usesBy(
  key: 'di' | 'lot' | 'serial',
  lines: readonly RecallLine[],
  read: ReadUses,
): Promise<Map<string, UseSummary[]>> {
  const wanted = [...new Set(lines.flatMap(line => line[key] ?? []))];
  const found = new Map<string, UseSummary[]>();
  for (let at = 0; at < wanted.length; at += BATCH) {
    const some = wanted.slice(at, at + BATCH);
    const places = some.map((_, n) => `$${n + 1}`).join(', ');
    // What has the same lot is of the line only where its identifier is the same or not known.
    const rows = await read(
      `${key} IN (${places})${key === 'di' ? '' : ' AND di IS NULL'} AND state <> 'withdrawn'`,
      some,
    );
    for (const row of rows) {
      const value = row[key] ?? '';
      found.set(value, [...(found.get(value) ?? []), row]);
    }
    if (key === 'di') continue;
    // A line without an identifier means that lot, or that number, of whatever device.
    const alone = some.filter(value => lines.some(line => line[key] === value && line.di === undefined));
    if (alone.length === 0) continue;
    const more = await read(
      `${key} IN (${alone.map((_, n) => `$${n + 1}`).join(', ')}) AND di IS NOT NULL AND state <> 'withdrawn'`,
      alone,
    );
    for (const row of more) {
      const value = row[key] ?? '';
      found.set(value, [...(found.get(value) ?? []), row]);
    }
  }
  return found;
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
