import type { DeviceDetails } from '../../devices/types.js';
import { type Message, message } from '../../findings/message.js';
import { convert } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Bleeding, bleedingRows } from '../../trade/cases/kind.js';
import { caseKindNamed } from '../../trade/cases/table.js';
import { type Input, inputOf } from '../calculation.js';

export type BleedingRisk = 'low' | 'high';

/** Where the rows come from. They were read in a transcription of the table, not in the original. */
export const TABLE = 'SIR consensus guideline 2019, table 3 (Patel et al., JVIR 2019;30:1168)';

/** A row of the table, or why none applies; `used` names what decided besides the kind of case. */
export type TableRow =
  | {
      readonly risk: BleedingRisk;
      readonly row: Message;
      readonly used?: Input;
    }
  | { readonly why: Message };

/**
 * The row for a case. Where it names several procedures, one of high risk makes it so; it is of low risk only when
 * each of them is.
 */
export function tableRow(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const found = caseKindNamed(record.case.kind);
  const rows = (found?.rows ?? []).map(({ bleeding }) => rowOf(bleeding, devices));
  const high = rows.find(row => 'risk' in row && row.risk === 'high');
  if (high) return high;
  if (found && found.unread.length > 0) return { why: message('why.no-row') };
  return rows.find(row => 'why' in row) ?? rows[0] ?? { why: message('why.no-row') };
}

function rowOf(bleeding: Bleeding, devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  if (bleeding === 'by sheath') return arterial(devices);
  if (bleeding === 'no-row' || bleeding === 'two-rows' || bleeding === 'ureteric-stent')
    return { why: message(`why.${bleeding}`) };
  const named: TableRow = { risk: bleedingRows[bleeding], row: message(`row.${bleeding}`) };
  if (bleeding !== 'limb-embolotherapy') return named;
  // Named in a row of its own, whatever the sheath; but over 7 Fr all arterial work is of high risk.
  const sheath = arterial(devices);
  return 'risk' in sheath && sheath.risk === 'high' ? sheath : named;
}

/** Limb artery work goes by the largest sheath: under 6 Fr low, over 7 Fr high, between them none. */
function arterial(devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const sheaths = [...devices.values()].flatMap(({ key, family, entry, diameter, said }) => {
    const unused = entry.use === 'unopened' || entry.use === 'opened unused';
    const french = diameter && convert(diameter, '[Ch]')?.toNumber();
    return family === 'sheath' && !unused && french !== undefined
      ? [{ french, said, path: `devices.${key}.size` }]
      : [];
  });
  const largest = sheaths.sort((a, b) => b.french - a.french)[0];
  if (!largest) return { why: message('why.no-sheath') };
  const device = largest.said;
  const used = inputOf(message('input.sheath'), device, largest.path);
  if (largest.french < 6) return { risk: 'low', row: message('row.sheath-small'), used };
  if (largest.french > 7) return { risk: 'high', row: message('row.sheath-large'), used };
  return { why: message('why.sheath-between', { device }) };
}
