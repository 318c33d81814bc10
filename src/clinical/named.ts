import type { Param } from '../findings/message.js';
import type { NameList } from '../findings/words/language.js';
import { analyteMatch } from '../trade/analytes.js';
import { caseKindNamed } from '../trade/cases/table.js';
import { deviceTable } from '../trade/devices/table.js';
import { allergenTable } from '../trade/drugs/allergens.js';
import { drugTable } from '../trade/drugs/table.js';
import { lengthTable } from '../trade/measures.js';
import type { Match, Named } from '../trade/names.js';
import { vitalMatch } from '../trade/vitals.js';
import { wordsOf } from '../trade/words.js';

type Find = (text: string) => Match<Named> | undefined;

/** A word of the record, with the row of a table of the trade that it is a name of; what is only near keeps its words. */
function named(list: NameList, text: string, ...finds: readonly Find[]): Param {
  const found = finds.map(find => find(text)).find(match => match !== undefined);
  if (found?.how !== 'listed') return { named: list, text };
  const row = found.row.name;
  // Another name may say more than its row, as 'ionised calcium' does: it is said beside it.
  const other = wordsOf(row).join(' ') !== wordsOf(text).join(' ');
  return { named: list, text, row, ...(other && { other }) };
}

/** A device that a text names whole: what a drain is fixed by, what closed a vessel. */
export const deviceNamed = (text: string): Param =>
  text === 'none' ? { named: 'values', text } : named('devices', text, one => deviceTable.find(one));

/** A drug, a contrast agent, or what an allergy is to. */
export const drugNamed = (text: string): Param =>
  named(
    'drugs',
    text,
    one => drugTable.find(one),
    one => allergenTable.find(one),
  );

/** A laboratory value, a vital sign or a length. */
export const valueNamed = (text: string): Param =>
  named('values', text, analyteMatch, vitalMatch, one => lengthTable.find(one));

/** A kind of case. */
export const caseNamed = (text: string): Param =>
  named('cases', text, one => {
    const match = caseKindNamed(one);
    const [row, ...others] = match?.rows ?? [];
    const single = others.length === 0 && match?.unread.length === 0;
    return match && row && single ? { row, how: match.how } : undefined;
  });

/** A part of the body, which may have its side before it. */
export function placeNamed(text: string): Param {
  const [, side, row] = /^(left|right) (.+)$/i.exec(text) ?? [];
  return side !== undefined && row !== undefined
    ? {
        named: 'places',
        text,
        row: row.toLowerCase(),
        side: side.toLowerCase() === 'left' ? 'left' : 'right',
      }
    : { named: 'places', text };
}
