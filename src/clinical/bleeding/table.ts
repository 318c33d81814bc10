import type { DeviceDetails } from '../../devices/types.js';
import { convert } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Input, inputOf } from '../calculation.js';
import { lookUp } from '../look-up.js';
import { type Said, say } from '../said.js';

export type BleedingRisk = 'low' | 'high';

/** Where the rows come from. They were read in a transcription of the table, not in the original. */
export const TABLE = 'SIR consensus guideline 2019, table 3 (Patel et al., JVIR 2019;30:1168)';

/** A row of the table, or why none applies; `used` names what decided besides the kind of case. */
export type TableRow =
  | {
      readonly risk: BleedingRisk;
      readonly row: Said;
      readonly used?: Input;
    }
  | { readonly why: Said };

const low = (row: Said): TableRow => ({ risk: 'low', row });
const high = (row: Said): TableRow => ({ risk: 'high', row });

const exchange = low(say('row.exchange'));
const filter = low(say('row.filter'));
const venousAccess = low(say('row.venous-access'));
const urinary = high(say('row.urinary'));
const biliary = high(say('row.biliary'));
const solidOrgan = high(say('row.solid-organ'));

/** Rows by kind of case. Kinds that the table does not name are not classified here. */
const byKind: Readonly<Record<string, TableRow>> = {
  'nephrostomy exchange': exchange,
  'biliary drain exchange': exchange,
  'drain exchange': exchange,
  'abscess drain exchange': exchange,
  'gastrostomy exchange': exchange,
  'caval filter insertion': filter,
  'caval filter retrieval': filter,
  'dialysis circuit angioplasty': low(say('row.dialysis-access')),
  'central venous access': venousAccess,
  'venous port': venousAccess,
  'port insertion': venousAccess,
  'venous access': venousAccess,
  'tunnelled catheter insertion': venousAccess,
  'dialysis catheter insertion': venousAccess,
  paracentesis: low(say('row.paracentesis')),
  thoracentesis: low(say('row.thoracentesis')),
  'tunnelled drain': low(say('row.tunnelled-drain')),
  'transjugular liver biopsy': low(say('row.transjugular-biopsy')),
  nephrostomy: urinary,
  'biliary drainage': biliary,
  'biliary stent': biliary,
  cholecystostomy: biliary,
  'abscess drainage': high(say('row.abscess')),
  'liver biopsy': solidOrgan,
  'kidney biopsy': solidOrgan,
  'spleen biopsy': solidOrgan,
  ablation: solidOrgan,
  gastrostomy: high(say('row.gastrostomy')),
  thrombolysis: high(say('row.lysis')),
  'transjugular portosystemic shunt': high(say('row.portosystemic-shunt')),
  'ureteric stent': {
    why: say('why.ureteric-stent'),
  },
};

const arterialKinds = ['limb artery angioplasty', 'limb artery stent', 'peripheral arteriography'];

/** The row for a case. Limb artery work goes by the largest sheath: under 6 Fr low, over 7 Fr high, between them none. */
export function tableRow(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const listed = lookUp(byKind, record.case.kind);
  if (listed) return listed;
  if (lookUp(Object.fromEntries(arterialKinds.map(kind => [kind, true])), record.case.kind))
    return arterial(devices);
  return { why: say('why.no-row') };
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
  if (!largest) return { why: say('why.no-sheath') };
  const device = { device: largest.name };
  const used = inputOf(say('input.sheath'), device, largest.path);
  if (largest.french < 6) return { risk: 'low', row: say('row.sheath-small'), used };
  if (largest.french > 7) return { risk: 'high', row: say('row.sheath-large'), used };
  return { why: say('why.sheath-between', { device }) };
}
