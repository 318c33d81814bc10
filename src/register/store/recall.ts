import { inBatches, placesOf } from '../../delivery/outbox/statements.js';
import { compareText } from '../../findings/finding.js';
import { grouped } from '../../record/grouped.js';
import type { RecallHit, RecallLine, UseSummary } from './register.js';

/** Reads uses by a condition of SQL with its parameters. */
type ReadUses = (where: string, params: readonly string[]) => Promise<readonly UseSummary[]>;

/**
 * The uses that lines of a recall meet, by line and then by use. A line is met by what it names; where one of these is
 * not known of a use whose identifier, or lot, or serial number fits, it cannot be excluded.
 */
export async function recallHits(lines: readonly RecallLine[], read: ReadUses): Promise<RecallHit[]> {
  const found = new Map<Lookup, Map<string, UseSummary[]>>();
  for (const lookup of LOOKUPS) found.set(lookup, await usesBy(lookup, lines, read));
  return lines.flatMap(line => {
    const met = new Map<string, RecallHit>();
    for (const [lookup, uses] of found) {
      const key = lookup.of(line) ? keyOf(lookup, line) : undefined;
      for (const use of key === undefined ? [] : (uses.get(key) ?? [])) {
        const hit = hitOf(line, use);
        if (hit) met.set(`${use.id}\u0000${use.person}`, hit);
      }
    }
    return [...met.values()].sort((a, b) => compareText(a.use.id, b.use.id));
  });
}

type Named = 'di' | 'lot' | 'serial';

/** One way to find uses: by columns that are as a line says, and one that is not known of the use. */
interface Lookup {
  readonly same: readonly Named[];
  readonly unknown?: Named;
  /** Lines that are looked up by it. */
  readonly of: (line: RecallLine) => boolean;
}

/**
 * Together they find whatever a line may mean, and little else, so that an identifier of which many lots were used is
 * not read as a whole. A line without an identifier means that lot, or number, of whatever device.
 */
const LOOKUPS: readonly Lookup[] = [
  { same: ['di', 'lot'], of: ({ di, lot }) => di !== undefined && lot !== undefined },
  { same: ['di'], unknown: 'lot', of: ({ di, lot }) => di !== undefined && lot !== undefined },
  { same: ['di', 'serial'], of: byIdentifierAndSerial },
  { same: ['di'], unknown: 'serial', of: byIdentifierAndSerial },
  {
    same: ['di'],
    of: ({ di, lot, serial }) => di !== undefined && lot === undefined && serial === undefined,
  },
  { same: ['lot'], unknown: 'di', of: ({ di, lot }) => di !== undefined && lot !== undefined },
  { same: ['serial'], unknown: 'di', of: ({ di, serial }) => di !== undefined && serial !== undefined },
  { same: ['lot'], of: ({ di, lot }) => di === undefined && lot !== undefined },
  { same: ['serial'], of: ({ di, serial }) => di === undefined && serial !== undefined },
];

function byIdentifierAndSerial({ di, lot, serial }: RecallLine): boolean {
  return di !== undefined && lot === undefined && serial !== undefined;
}

const valuesOf = ({ same }: Lookup, row: Pick<UseSummary, Named>): string[] =>
  same.map(name => row[name] ?? '');
const keyOf = (lookup: Lookup, row: Pick<UseSummary, Named>): string => valuesOf(lookup, row).join('\u0000');

async function usesBy(
  lookup: Lookup,
  lines: readonly RecallLine[],
  read: ReadUses,
): Promise<Map<string, UseSummary[]>> {
  const wanted = new Map(
    lines.filter(lookup.of).map(line => [keyOf(lookup, line), valuesOf(lookup, line)] as const),
  );
  const also = `${lookup.unknown === undefined ? '' : ` AND ${lookup.unknown} IS NULL`} AND state <> 'withdrawn'`;
  const rows: UseSummary[] = [];
  for (const some of inBatches([...wanted.values()]))
    rows.push(...(await read(`${isOneOf(lookup.same, some)}${also}`, some.flat())));
  return grouped(rows, row => keyOf(lookup, row));
}

/** `(a, b) IN (VALUES ($1, $2), …)`, which an index of both answers. */
function isOneOf(columns: readonly string[], rows: readonly (readonly string[])[]): string {
  if (columns.length === 1) return `${columns[0]} IN (${placesOf(rows)})`;
  const places = rows.map(
    (row, n) => `(${row.map((_, at) => `$${n * columns.length + at + 1}`).join(', ')})`,
  );
  return `(${columns.join(', ')}) IN (VALUES ${places.join(', ')})`;
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
