// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k } from './types.js';

/** What a device is, by the name of its row in the table of kinds. */
// biome-ignore format: a table reads best with one code a line
export const deviceKindCodes = {
  'access needle': k(s.sct, '79068005', 'Needle, device (physical object)', f.gps),
  'biopsy needle': k(s.sct, '118377000', 'Biopsy needle', f.expansions, 'licensed'),
  guidewire: k(s.sct, '272224001', 'Guide wire (physical object)', f.gps),
  dilator: k(s.sct, '61835000', 'Dilator', f.expansions, 'licensed'),
  'telescopic dilator': k(s.sct, '61835000', 'Dilator', f.expansions, 'licensed'),
  catheter: k(s.sct, '19923001', 'Catheter, device (physical object)', f.gps),
  'guiding catheter': k(s.sct, '102317008', 'Guiding catheter, device (physical object)', f.gps),
  'balloon guiding catheter': k(s.sct, '102317008', 'Guiding catheter, device (physical object)', f.gps),
  'ureteric catheter': k(s.sct, '47528002', 'Ureteric catheter', f.expansions, 'licensed'),
  'epidural catheter': k(s.sct, '30610008', 'Epidural catheter, device', f.expansions, 'licensed'),
  'central venous catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'tunnelled central venous catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'dialysis catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'tunnelled dialysis catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'non-tunnelled dialysis catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'apheresis catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'peripherally inserted central catheter': k(s.sct, '52124006', 'Central venous catheter, device (physical object)', f.gps),
  'peripheral venous cannula': k(s.sct, '82449006', 'Peripheral intravenous catheter, device (physical object)', f.gps),
  'peritoneal dialysis catheter': k(s.sct, '31030004', 'Peritoneal catheter, device', f.expansions, 'licensed'),
  'venous port': k(s.sct, '398013009', 'Implantable venous access port (physical object)', f.gps),
  'angioplasty balloon': k(s.sct, '102319006', 'Percutaneous transluminal angioplasty balloon, device (physical object)', f.gps),
  'cutting balloon catheter': k(s.sct, '371794009', 'Cutting balloon angioplasty device (physical object)', f.gps),
  'detachable balloon': k(s.sct, '102320000', 'Detachable balloon, device (physical object)', f.gps),
  stent: k(s.sct, '65818007', 'Stent (physical object)', f.gps),
  'ureteric stent': k(s.sct, '286558002', 'Ureteric stent (physical object)', f.gps),
  'double-J stent': k(s.sct, '257366006', 'JJ stent (physical object)', f.gps),
  'metal ureteric stent': k(s.sct, '286558002', 'Ureteric stent (physical object)', f.gps),
  'tumour ureteric stent': k(s.sct, '286558002', 'Ureteric stent (physical object)', f.gps),
  'biliary stent': k(s.sct, '360123005', 'Biliary stent (physical object)', f.gps),
  'metal biliary stent': k(s.sct, '257363003', 'Metal stent (physical object)', f.gps),
  'plastic biliary stent': k(s.sct, '257362008', 'Plastic stent (physical object)', f.gps),
  'covered biliary stent': k(s.sct, '360123005', 'Biliary stent (physical object)', f.gps),
  'biodegradable biliary stent': k(s.sct, '360123005', 'Biliary stent (physical object)', f.gps),
  'arterial stent': k(s.sct, '360046005', 'Arterial stent (physical object)', f.gps),
  'carotid stent': k(s.sct, '413766009', 'Carotid artery stent (physical object)', f.gps),
  'urethral stent': k(s.sct, '286576009', 'Urethral stent (physical object)', f.gps),
  'bladder catheter': k(s.sct, '20568009', 'Urinary catheter, device', f.expansions, 'licensed'),
  'T-tube': k(s.sct, '6097006', 'T-tube', f.expansions, 'licensed'),
  'gastrostomy tube': k(s.sct, '126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'balloon gastrostomy tube': k(s.sct, '126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'locking gastrostomy catheter': k(s.sct, '126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'bumper gastrostomy tube': k(s.sct, '126064005', 'Gastrostomy tube, device', f.expansions, 'licensed'),
  'jejunostomy tube': k(s.sct, '126065006', 'Jejunostomy tube, device (physical object)', f.gps),
  'gastrojejunostomy tube': k(s.sct, '25062003', 'Feeding tube, device (physical object)', f.gps),
  'nasojejunal tube': k(s.sct, '25062003', 'Feeding tube, device (physical object)', f.gps),
  'caval filter': k(s.sct, '257409000', 'Vena cava filter (physical object)', f.gps),
  'superior vena cava filter': k(s.sct, '257409000', 'Vena cava filter (physical object)', f.gps),
  coil: k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  'detachable coil': k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  'pushable coil': k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  microcoil: k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  'hydrogel coil': k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  'aneurysm coil': k(s.sct, '102314001', 'Embolization coil, device (physical object)', f.gps),
  particles: k(s.sct, '102316004', 'Embolization particulate, device (physical object)', f.gps),
  snare: k(s.sct, '25005004', 'Snare, device', f.expansions, 'licensed'),
  'three-loop snare': k(s.sct, '25005004', 'Snare, device', f.expansions, 'licensed'),
  forceps: k(s.sct, '29319002', 'Forceps, device', f.expansions, 'licensed'),
  'stone basket': k(s.sct, '37311003', 'Stone retrieval basket, device', f.expansions, 'licensed'),
  'bone screw': k(s.sct, '68183006', 'Bone screw, device (physical object)', f.gps),
  'needle guide': k(s.sct, '10244001', 'Needle guide', f.expansions, 'licensed'),
  'drainage bag': k(s.sct, '30968007', 'Drainage bag, device', f.expansions, 'licensed'),
  syringe: k(s.sct, '61968008', 'Syringe, device (physical object)', f.gps),
  suture: k(s.sct, '27065002', 'Surgical suture, device (physical object)', f.gps),
};

/** By family, where the kind itself has no code or one that may not be sent. */
// biome-ignore format: a table reads best with one code a line
export const deviceFamilyCodes = {
  needle: k(s.sct, '79068005', 'Needle, device (physical object)', f.gps),
  guidewire: k(s.sct, '272224001', 'Guide wire (physical object)', f.gps),
  catheter: k(s.sct, '19923001', 'Catheter, device (physical object)', f.gps),
  dilator: k(s.sct, '61835000', 'Dilator', f.expansions, 'licensed'),
  balloon: k(s.sct, '34263000', 'Medical balloon, device', f.expansions, 'licensed'),
  stent: k(s.sct, '65818007', 'Stent (physical object)', f.gps),
  drain: k(s.sct, '32712000', 'Drain, device', f.expansions, 'licensed'),
};

/** Actions of the value set that Procedure.focalDevice.action prefers. */
// biome-ignore format: a table reads best with one code a line
export const deviceActionCodes = {
  insertion: k(s.sct, '257867005', 'Insertion - action', f.expansions, 'licensed'),
  removal: k(s.sct, '129303008', 'Removal - action', f.expansions, 'licensed'),
  repositioning: k(s.sct, '360146007', 'Repositioning - action', f.expansions, 'licensed'),
  adjustment: k(s.sct, '129426002', 'Adjustment - action', f.expansions, 'licensed'),
  extraction: k(s.sct, '129415008', 'Extraction - action', f.expansions, 'licensed'),
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
