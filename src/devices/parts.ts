import type { Param } from '../findings/message.js';
import { deviceTable } from '../trade/devices/table.js';

/** A part by its kind as written: one of the words for parts, else a kind of device that is a part here. */
export function partNamed(kind: string): Param {
  const found = deviceTable.find(kind);
  return found?.how === 'listed' && found.row.name === kind.toLowerCase()
    ? { named: 'devices', text: kind, row: found.row.name }
    : { named: 'parts', text: kind };
}
