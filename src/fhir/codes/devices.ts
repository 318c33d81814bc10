import { gps, type KnownCode, sct } from './types.js';

/** What a device is, by the name of its row in the table of kinds. Kinds without a verified code are text only. */
export const deviceKindCodes: Readonly<Record<string, KnownCode>> = {
  'access needle': gps('79068005', 'Needle, device (physical object)'),
  'biopsy needle': sct('118377000', 'Biopsy needle'),
  guidewire: gps('272224001', 'Guide wire (physical object)'),
  catheter: gps('19923001', 'Catheter, device (physical object)'),
  'guiding catheter': gps('102317008', 'Guiding catheter, device (physical object)'),
  'ureteric catheter': sct('47528002', 'Ureteric catheter'),
  'central venous catheter': gps('52124006', 'Central venous catheter, device (physical object)'),
  'angioplasty balloon': gps(
    '102319006',
    'Percutaneous transluminal angioplasty balloon, device (physical object)',
  ),
  'balloon catheter': sct('44959004', 'Angioplasty balloon catheter, device'),
  'cutting balloon catheter': gps('371794009', 'Cutting balloon angioplasty device (physical object)'),
  stent: gps('65818007', 'Stent (physical object)'),
  'ureteric stent': gps('286558002', 'Ureteric stent (physical object)'),
  'double-J stent': gps('257366006', 'JJ stent (physical object)'),
  'biliary stent': gps('360123005', 'Biliary stent (physical object)'),
  'metal biliary stent': gps('257363003', 'Metal stent (physical object)'),
  'plastic biliary stent': gps('257362008', 'Plastic stent (physical object)'),
  'arterial stent': gps('360046005', 'Arterial stent (physical object)'),
  'caval filter': gps('257409000', 'Vena cava filter (physical object)'),
  coil: gps('102314001', 'Embolization coil, device (physical object)'),
  particles: gps('102316004', 'Embolization particulate, device (physical object)'),
  'drainage bag': sct('30968007', 'Drainage bag, device'),
};

/** Fallback by family where the kind itself has no verified code. */
export const deviceFamilyCodes: Readonly<Record<string, KnownCode>> = {
  needle: gps('79068005', 'Needle, device (physical object)'),
  guidewire: gps('272224001', 'Guide wire (physical object)'),
  catheter: gps('19923001', 'Catheter, device (physical object)'),
  stent: gps('65818007', 'Stent (physical object)'),
  drain: sct('32712000', 'Drain, device'),
};

/** Actions of the value set that Procedure.focalDevice.action prefers. */
export const deviceActionCodes = {
  insertion: sct('257867005', 'Insertion - action'),
  removal: sct('129303008', 'Removal - action'),
  repositioning: sct('360146007', 'Repositioning - action'),
  adjustment: sct('129426002', 'Adjustment - action'),
  extraction: sct('129415008', 'Extraction - action'),
} as const;

const ACTION = 'http://hl7.org/fhir/device-action';
const ACTION_FILE = 'hl7.fhir.r4.examples/CodeSystem-device-action.json';

/** FHIR's own three words for the same; outside that value set, yet used by the standard's example. */
export const fhirDeviceActions = {
  implanted: { system: ACTION, code: 'implanted', display: 'Implanted', source: ACTION_FILE },
  explanted: { system: ACTION, code: 'explanted', display: 'Explanted', source: ACTION_FILE },
  manipulated: { system: ACTION, code: 'manipulated', display: 'Manipulated', source: ACTION_FILE },
} as const satisfies Record<string, KnownCode>;
