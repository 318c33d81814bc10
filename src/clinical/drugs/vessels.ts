import type { CaseRecord } from '../../record/schema/record.js';
import { deviceTable } from '../../trade/devices/table.js';

const lines =
  /\b(?:PICC|port|midline|central (?:venous )?(?:line|catheter)|dialysis catheter|tunnelled catheter)\b/i;

/** Whether a device of the case is a line that lies in a vein. */
export function isVessel(record: CaseRecord, key: string | undefined): boolean {
  const kind = key === undefined ? undefined : record.devices?.[key]?.kind;
  return kind !== undefined && lines.test(`${kind} ${deviceTable.find(kind)?.row.name ?? ''}`);
}
