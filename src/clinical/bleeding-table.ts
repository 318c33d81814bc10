import type { DeviceDetails } from '../devices/types.js';
import { convert } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { lookUp } from './look-up.js';

export type BleedingRisk = 'low' | 'high';

/** Where the rows come from. They were read in a transcription of the table, not in the original. */
export const TABLE =
  'SIR consensus guideline 2019, table 3 (Patel et al., JVIR 2019;30:1168), read in a transcription';

/** A row of the table, or why none applies; `used` names what decided besides the kind of case. */
export type TableRow =
  | {
      readonly risk: BleedingRisk;
      readonly row: string;
      readonly used?: { name: string; value: string; path: string };
    }
  | { readonly why: string };

const low = (row: string): TableRow => ({ risk: 'low', row });
const high = (row: string): TableRow => ({ risk: 'high', row });

const exchange = low('catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)');
const filter = low('caval filter placement and uncomplicated removal');
const venousAccess = low('tunnelled and non-tunnelled venous access');
const urinary = high('urinary tract interventions, nephrostomy placement included');
const biliary = high('biliary interventions, cholecystostomy included');
const solidOrgan = high('solid organ biopsy and ablation');

/** Rows by kind of case. Kinds that the table does not name are not classified here. */
const byKind: Readonly<Record<string, TableRow>> = {
  'nephrostomy exchange': exchange,
  'biliary drain exchange': exchange,
  'drain exchange': exchange,
  'abscess drain exchange': exchange,
  'gastrostomy exchange': exchange,
  'caval filter insertion': filter,
  'caval filter retrieval': filter,
  'dialysis circuit angioplasty': low('dialysis access interventions'),
  'central venous access': venousAccess,
  'venous port': venousAccess,
  'port insertion': venousAccess,
  'venous access': venousAccess,
  'tunnelled catheter insertion': venousAccess,
  'dialysis catheter insertion': venousAccess,
  paracentesis: low('paracentesis'),
  thoracentesis: low('thoracentesis'),
  'tunnelled drain': low('tunnelled drainage catheter'),
  'transjugular liver biopsy': low('transjugular liver biopsy'),
  nephrostomy: urinary,
  'biliary drainage': biliary,
  'biliary stent': biliary,
  cholecystostomy: biliary,
  'abscess drainage': high('deep abscess drainage'),
  'liver biopsy': solidOrgan,
  'kidney biopsy': solidOrgan,
  'spleen biopsy': solidOrgan,
  ablation: solidOrgan,
  gastrostomy: high('gastrostomy placement'),
  thrombolysis: high('catheter-directed lysis'),
  'transjugular portosystemic shunt': high('transjugular intrahepatic portosystemic shunt'),
  'ureteric stent': {
    why: 'the table does not name insertion of a ureteric stent; its nearest row is urinary tract interventions (high)',
  },
};

const arterialKinds = ['limb artery angioplasty', 'limb artery stent', 'peripheral arteriography'];

/** The row for a case. Limb artery work goes by the largest sheath: under 6 Fr low, over 7 Fr high, between them none. */
export function tableRow(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): TableRow {
  const listed = lookUp(byKind, record.case.kind);
  if (listed) return listed;
  if (lookUp(Object.fromEntries(arterialKinds.map(kind => [kind, true])), record.case.kind))
    return arterial(devices);
  return { why: 'the table has no row for this kind of case, and the site has set none' };
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
  if (!largest) return { why: 'arterial work goes by the size of the sheath, and none is recorded' };
  const used = { name: 'Largest sheath', value: largest.name, path: largest.path };
  if (largest.french < 6)
    return { risk: 'low', row: 'peripheral arterial intervention, sheath under 6 Fr', used };
  if (largest.french > 7) return { risk: 'high', row: 'arterial intervention, sheath over 7 Fr', used };
  return { why: `the table gives sheaths under 6 Fr and over 7 Fr; the largest here is the ${largest.name}` };
}
