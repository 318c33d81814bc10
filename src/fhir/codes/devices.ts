// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k, sct } from './types.js';

/** What a device is, by the name of its row in the table of kinds. */
// biome-ignore format: a table reads best with one code a line
export const deviceKindCodes = {
  'access needle': sct('79068005', 'Needle, device (physical object)', f.gps),
  'biopsy needle': sct('118377000', 'Biopsy needle', f.expansions, 'licensed'),
  guidewire: sct('272224001', 'Guide wire (physical object)', f.gps),
  dilator: sct('61835000', 'Dilator', f.expansions, 'licensed'),
  'telescopic dilator': sct('61835000', 'Dilator', f.expansions, 'licensed'),
  catheter: sct('19923001', 'Catheter, device (physical object)', f.gps),
  'guiding catheter': sct('102317008', 'Guiding catheter, device (physical object)', f.gps),
  'balloon guiding catheter': sct('102317008', 'Guiding catheter, device (physical object)', f.gps),
  'ureteric catheter': sct('47528002', 'Ureteric catheter', f.expansions, 'licensed'),
  'epidural catheter': sct('30610008', 'Epidural catheter, device', f.expansions, 'licensed'),
  'central venous catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'tunnelled central venous catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'dialysis catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'tunnelled dialysis catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'non-tunnelled dialysis catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'apheresis catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'peripherally inserted central catheter': sct('52124006', 'Central venous catheter, device (physical object)', f.gps),
  'peripheral venous cannula': sct('82449006', 'Peripheral intravenous catheter, device (physical object)', f.gps),
  'peritoneal dialysis catheter': sct('31030004', 'Peritoneal catheter, device', f.expansions, 'licensed'),
  'venous port': sct('398013009', 'Implantable venous access port (physical object)', f.gps),
  'angioplasty balloon': sct('102319006', 'Percutaneous transluminal angioplasty balloon, device (physical object)', f.gps),
  'cutting balloon catheter': sct('371794009', 'Cutting balloon angioplasty device (physical object)', f.gps),
  'detachable balloon': sct('102320000', 'Detachable balloon, device (physical object)', f.gps),
  stent: sct('65818007', 'Stent (physical object)', f.gps),
  'ureteric stent': sct('286558002', 'Ureteric stent (physical object)', f.gps),
  'double-J stent': sct('257366006', 'JJ stent (physical object)', f.gps),
  'metal ureteric stent': sct('286558002', 'Ureteric stent (physical object)', f.gps),
  'tumour ureteric stent': sct('286558002', 'Ureteric stent (physical object)', f.gps),
  'biliary stent': sct('360123005', 'Biliary stent (physical object)', f.gps),
  'metal biliary stent': sct('257363003', 'Metal stent (physical object)', f.gps),
  'plastic biliary stent': sct('257362008', 'Plastic stent (physical object)', f.gps),
  'covered biliary stent': sct('360123005', 'Biliary stent (physical object)', f.gps),
  'biodegradable biliary stent': sct('360123005', 'Biliary stent (physical object)', f.gps),
  'arterial stent': sct('360046005', 'Arterial stent (physical object)', f.gps),
  'carotid stent': sct('413766009', 'Carotid artery stent (physical object)', f.gps),
  'urethral stent': sct('286576009', 'Urethral stent (physical object)', f.gps),
  'bladder catheter': sct('20568009', 'Urinary catheter, device', f.expansions, 'licensed'),
  'T-tube': sct('6097006', 'T-tube', f.expansions, 'licensed'),
  'gastrostomy tube': sct('126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'balloon gastrostomy tube': sct('126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'locking gastrostomy catheter': sct('126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'bumper gastrostomy tube': sct('126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'jejunostomy tube': sct('126065006', 'Jejunostomy tube, device (physical object)', f.gps),
  'gastrojejunostomy tube': sct('25062003', 'Feeding tube, device (physical object)', f.gps),
  'nasojejunal tube': sct('25062003', 'Feeding tube, device (physical object)', f.gps),
  'caval filter': sct('257409000', 'Vena cava filter (physical object)', f.gps),
  'superior vena cava filter': sct('257409000', 'Vena cava filter (physical object)', f.gps),
  coil: sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  'detachable coil': sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  'pushable coil': sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  microcoil: sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  'hydrogel coil': sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  'aneurysm coil': sct('102314001', 'Embolization coil, device (physical object)', f.gps),
  particles: sct('102316004', 'Embolization particulate, device (physical object)', f.gps),
  snare: sct('25005004', 'Snare, device', f.expansions, 'licensed'),
  'three-loop snare': sct('25005004', 'Snare, device', f.expansions, 'licensed'),
  forceps: sct('29319002', 'Forceps, device', f.expansions, 'licensed'),
  'stone basket': sct('37311003', 'Stone retrieval basket, device', f.expansions, 'licensed'),
  'bone screw': sct('68183006', 'Bone screw, device (physical object)', f.gps),
  'needle guide': sct('10244001', 'Needle guide', f.expansions, 'licensed'),
  'drainage bag': sct('30968007', 'Drainage bag, device', f.expansions, 'licensed'),
  syringe: sct('61968008', 'Syringe, device (physical object)', f.gps),
  suture: sct('27065002', 'Surgical suture, device (physical object)', f.gps),
};

/** By family, where the kind itself has no code or one that may not be sent. */
// biome-ignore format: a table reads best with one code a line
export const deviceFamilyCodes = {
  needle: sct('79068005', 'Needle, device (physical object)', f.gps),
  guidewire: sct('272224001', 'Guide wire (physical object)', f.gps),
  catheter: sct('19923001', 'Catheter, device (physical object)', f.gps),
  dilator: sct('61835000', 'Dilator', f.expansions, 'licensed'),
  balloon: sct('34263000', 'Medical balloon, device', f.expansions, 'licensed'),
  stent: sct('65818007', 'Stent (physical object)', f.gps),
  drain: sct('32712000', 'Drain, device', f.expansions, 'licensed'),
};

/** Actions of the value set that Procedure.focalDevice.action prefers. */
// biome-ignore format: a table reads best with one code a line
export const deviceActionCodes = {
  insertion: sct('257867005', 'Insertion - action', f.expansions, 'licensed'),
  removal: sct('129303008', 'Removal - action', f.expansions, 'licensed'),
  repositioning: sct('360146007', 'Repositioning - action', f.expansions, 'licensed'),
  adjustment: sct('129426002', 'Adjustment - action', f.expansions, 'licensed'),
  extraction: sct('129415008', 'Extraction - action', f.expansions, 'licensed'),
};

/** FHIR's own three words for the same; outside that value set, yet used by the standard's example. */
// biome-ignore format: a table reads best with one code a line
export const fhirDeviceActions = {
  implanted: k(s.deviceAction, 'implanted', 'Implanted', f.deviceAction),
  explanted: k(s.deviceAction, 'explanted', 'Explanted', f.deviceAction),
  manipulated: k(s.deviceAction, 'manipulated', 'Manipulated', f.deviceAction),
};

/** Sizes of devices. */
// biome-ignore format: a table reads best with one code a line
export const dimensionCodes = {
  needleGauge: k(s.dcm, '111465', 'Needle Gauge', f.dicom),
  catheterSize: k(s.dcm, '122319', 'Catheter Size', f.dicom),
};
