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
  pleura: gps('3120008', 'Pleural membrane structure (body structure)'),
  lung: gps('39607008', 'Lung structure (body structure)'),
  breast: gps('76752008', 'Breast structure (body structure)'),
  'femoral artery': gps('7657000', 'Structure of femoral artery (body structure)'),
  'common iliac artery': gps('73634005', 'Common iliac artery structure (body structure)'),
  'subclavian artery': gps('36765005', 'Structure of subclavian artery (body structure)'),
  'subclavian vein': gps('9454009', 'Structure of subclavian vein (body structure)'),
  'common carotid artery': gps('32062004', 'Common carotid artery structure (body structure)'),
  'hepatic artery': gps('76015000', 'Hepatic artery (body structure)'),
};

/** Sites with their side in one code, by name; the free set has few of them. */
export const sidedSiteCodes: Readonly<Record<string, KnownCode>> = {
  'both ureter': gps('65364008', 'Both ureters (body structure)'),
  'both ureters': gps('65364008', 'Both ureters (body structure)'),
  'left pleura': gps('53727004', 'Left pleura structure (body structure)'),
  'right pleura': gps('44788007', 'Right pleura structure (body structure)'),
  'left breast': gps('80248007', 'Left breast structure (body structure)'),
  'right breast': gps('73056007', 'Right breast structure (body structure)'),
  'both breast': gps('63762007', 'Both breasts (body structure)'),
  'both breasts': gps('63762007', 'Both breasts (body structure)'),
  'left femoral artery': gps('113270003', 'Structure of left femoral artery (body structure)'),
  'right femoral artery': gps('69833005', 'Structure of right femoral artery (body structure)'),
  'left subclavian artery': gps('85235006', 'Structure of left subclavian artery (body structure)'),
  'right subclavian artery': gps('29700009', 'Structure of right subclavian artery (body structure)'),
  'left common carotid artery': gps('113263003', 'Left common carotid artery structure (body structure)'),
  'right common carotid artery': gps('65355003', 'Right common carotid artery structure (body structure)'),
  'left hepatic vein': gps('273202007', 'Structure of left hepatic vein (body structure)'),
  'right hepatic vein': gps('272998002', 'Structure of right hepatic vein (body structure)'),
  'left hepatic artery': gps('21807003', 'Structure of left branch of hepatic artery (body structure)'),
  'right hepatic artery': gps('69421009', 'Structure of right branch of hepatic artery (body structure)'),
};

/** Sides, as BodyStructure.locationQualifier. A midline structure needs none. */
export const sideCodes = {
  left: gps('7771000', 'Left (qualifier value)'),
  right: gps('24028007', 'Right (qualifier value)'),
  both: gps('51440002', 'Right and left (qualifier value)'),
} as const;
