import type { DeviceDetails } from '../../devices/types.js';
import { type Message, message } from '../../findings/message.js';
import { convert } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Input, inputOf } from '../calculation.js';
import { lookUp } from '../look-up.js';

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

const low = (row: Message): TableRow => ({ risk: 'low', row });
const high = (row: Message): TableRow => ({ risk: 'high', row });

const exchange = low(message('row.exchange'));
const filter = low(message('row.filter'));
const venousAccess = low(message('row.venous-access'));
const urinary = high(message('row.urinary'));
const biliary = high(message('row.biliary'));
const solidOrgan = high(message('row.solid-organ'));

/** Rows by kind of case. Kinds that the table does not name are not classified here. */
const byKind: Readonly<Record<string, TableRow>> = {
  'nephrostomy exchange': exchange,
  'biliary drain exchange': exchange,
  'drain exchange': exchange,
  'abscess drain exchange': exchange,
  'gastrostomy exchange': exchange,
  'caval filter insertion': filter,
  'caval filter retrieval': filter,
  'dialysis circuit angioplasty': low(message('row.dialysis-access')),
  'central venous access': venousAccess,
  'venous port': venousAccess,
  'port insertion': venousAccess,
  'venous access': venousAccess,
  'tunnelled catheter insertion': venousAccess,
  'dialysis catheter insertion': venousAccess,
  paracentesis: low(message('row.paracentesis')),
  thoracentesis: low(message('row.thoracentesis')),
  'tunnelled drain': low(message('row.tunnelled-drain')),
  'transjugular liver biopsy': low(message('row.transjugular-biopsy')),
  nephrostomy: urinary,
  'biliary drainage': biliary,
  'biliary stent': biliary,
  cholecystostomy: biliary,
  'abscess drainage': high(message('row.abscess')),
  'liver biopsy': solidOrgan,
  'kidney biopsy': solidOrgan,
  'spleen biopsy': solidOrgan,
  ablation: solidOrgan,
  gastrostomy: high(message('row.gastrostomy')),
  thrombolysis: high(message('row.lysis')),
  'transjugular portosystemic shunt': high(message('row.portosystemic-shunt')),
  'ureteric stent': {
    why: message('why.ureteric-stent'),
  },
};

const arterialKinds = ['limb artery angioplasty', 'limb artery stent', 'peripheral arteriography'];

/** The row for a case. Limb artery work goes by the largest sheath: under 6 Fr low, over 7 Fr high, between them none. */
export function tableRow(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const listed = lookUp(byKind, record.case.kind);
  if (listed) return listed;
  if (lookUp(Object.fromEntries(arterialKinds.map(kind => [kind, true])), record.case.kind))
    return arterial(devices);
  return { why: message('why.no-row') };
}

function arterial(devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const sheaths = [...devices.values()].flatMap(({ key, family, entry, diameter, name }) => {
    const unused = entry.use === 'unopened' || entry.use === 'opened unused';
    const french = diameter && convert(diameter, '[Ch]')?.toNumber();
    return family === 'sheath' && !unused && french !== undefined
      ? [{ french, name, path: `devices.${key}.size` }]
      : [];
  });
  const largest = sheaths.sort((a, b) => b.french - a.french)[0];
  if (!largest) return { why: message('why.no-sheath') };
  const device = { device: largest.name };
  const used = inputOf(message('input.sheath'), device, largest.path);
  if (largest.french < 6) return { risk: 'low', row: message('row.sheath-small'), used };
  if (largest.french > 7) return { risk: 'high', row: message('row.sheath-large'), used };
  return { why: message('why.sheath-between', { device }) };
}
