import { gps, type KnownCode } from './types.js';

/** Body sites by name (compared without case), for records that carry no code. */
export const siteCodes: Readonly<Record<string, KnownCode>> = {
  kidney: gps('64033007', 'Kidney structure (body structure)'),
  'renal pelvis': gps('25990002', 'Renal pelvis structure (body structure)'),
  ureter: gps('87953007', 'Ureteric structure (body structure)'),
  bladder: gps('89837001', 'Urinary bladder structure (body structure)'),
  'bile duct': gps('28273000', 'Bile duct structure (body structure)'),
  'common bile duct': gps('79741001', 'Common bile duct structure (body structure)'),
  'biliary tract': gps('34707002', 'Biliary tract structure (body structure)'),
  'inferior vena cava': gps('64131007', 'Inferior vena cava structure (body structure)'),
  'femoral vein': gps('83419000', 'Femoral vein structure (body structure)'),
  'common femoral vein': gps('397363009', 'Common femoral vein structure (body structure)'),
  'internal jugular vein': gps('12123001', 'Internal jugular vein structure (body structure)'),
  'common femoral artery': gps('181347005', 'Common femoral artery (body structure)'),
  'superficial femoral artery': gps('181349008', 'Superficial femoral artery (body structure)'),
  'popliteal artery': gps('43899006', 'Structure of popliteal artery (body structure)'),
  'radial artery': gps('45631007', 'Structure of radial artery (body structure)'),
  'brachial artery': gps('17137000', 'Structure of brachial artery (body structure)'),
  'cephalic vein': gps('20699002', 'Structure of cephalic vein (body structure)'),
  'basilic vein': gps('19715009', 'Structure of basilic vein (body structure)'),
  'portal vein': gps('32764006', 'Portal vein structure (body structure)'),
  liver: gps('10200004', 'Liver structure (body structure)'),
  gallbladder: gps('28231008', 'Gallbladder structure (body structure)'),
  stomach: gps('69695003', 'Stomach structure (body structure)'),
  'peritoneal cavity': gps('83670000', 'Peritoneal cavity structure (body structure)'),
};

/** Sides, as BodyStructure.locationQualifier. A midline structure needs none. */
export const sideCodes = {
  left: gps('7771000', 'Left (qualifier value)'),
  right: gps('24028007', 'Right (qualifier value)'),
  both: gps('51440002', 'Right and left (qualifier value)'),
} as const;
