import type { Statement } from '../../delivery/outbox/connection.js';
import type { RowSealing } from '../../delivery/outbox/sealing.js';
import { insert } from '../../delivery/outbox/statements.js';
import type { EntryElements } from '../entry/elements.js';
import type { PatientNumber } from '../patient-number.js';
import type {
  BatchManifest,
  BatchRow,
  BatchState,
  EntryName,
  Line,
  LineState,
  NewLine,
} from './submissions.js';

export type Row = Readonly<Record<string, unknown>>;

const LINE_COLUMNS = [
  ...(['registry', 'case_name', 'device', 'part', 'action', 'version', 'newest', 'case_version'] as const),
  ...(['digest', 'batch', 'line', 'state', 'coarser', 'entry_alias', 'case_alias', 'patient_alias'] as const),
  ...(['body', 'code', 'says'] as const),
];

/** What is kept of a line beside what lists search by. */
interface LineBody {
  readonly elements: EntryElements;
  readonly number: PatientNumber;
}

/** Columns that say which entry is meant; absent parts of a name are ''. */
export const nameParams = ({ case: of, device, part = '', action = '' }: EntryName): string[] => [
  of,
  device,
  part,
  action,
];

export const NAME_COLUMNS = ['case_name', 'device', 'part', 'action'] as const;

/** Puts a line there as the newest of its entry, in place of one of the same version. */
export function rowOfLine(
  prefix: string,
  { registry, batch }: { readonly registry: string; readonly batch: string },
  line: NewLine,
  place: number,
  { seal }: RowSealing,
): Statement {
  const { elements, number } = line;
  const made = insert(`${prefix}entry`, LINE_COLUMNS, [
    ...[registry, ...nameParams(line.name), line.version, 1, line.caseVersion, line.digest, batch, place],
    ...['open', line.coarser, elements.entry, elements.case, elements.patient],
    ...[seal(JSON.stringify({ elements, number } satisfies LineBody)), null, null],
  ]);
  const anew = LINE_COLUMNS.filter(column => column !== 'registry' && column !== 'version');
  return {
    ...made,
    sql: `${made.sql} ON CONFLICT (registry, ${NAME_COLUMNS.join(', ')}, version)
      DO UPDATE SET ${anew.map(column => `${column} = excluded.${column}`).join(', ')}`,
  };
}

export function lineOf(row: Row, { open }: RowSealing): Line {
  const { elements, number } = JSON.parse(open(String(row['body']))) as LineBody;
  const text = (column: string) => (typeof row[column] === 'string' ? row[column] : undefined);
  const [code, says] = [text('code'), text('says')];
  return {
    registry: String(row['registry']),
    batch: String(row['batch']),
    line: Number(row['line']),
    name: nameOf(row),
    version: Number(row['version']),
    caseVersion: Number(row['case_version']),
    digest: String(row['digest']),
    state: String(row['state']) as LineState,
    coarser: Number(row['coarser']),
    elements,
    number,
    ...(code !== undefined && { code }),
    ...(says !== undefined && { says: open(says) }),
  };
}

function nameOf(row: Row): EntryName {
  const [part, action] = [String(row['part']), String(row['action'])];
  return {
    case: String(row['case_name']),
    device: String(row['device']),
    ...(part !== '' && { part }),
    ...(action !== '' && { action }),
  };
}

export function batchOf(row: Row): BatchRow {
  const time = (column: string) => (row[column] === null ? undefined : Number(row[column]));
  const [triedAt, answeredAt] = [time('tried_at'), time('answered_at')];
  return {
    registry: String(row['registry']),
    id: String(row['id']),
    state: String(row['state']) as BatchState,
    manifest: JSON.parse(String(row['manifest'])) as BatchManifest,
    madeAt: Number(row['made_at']),
    ...(triedAt !== undefined && { triedAt }),
    ...(answeredAt !== undefined && { answeredAt }),
    ...(row['reason'] !== null && { reason: String(row['reason']) }),
  };
}
