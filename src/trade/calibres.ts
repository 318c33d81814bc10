/** How wide a vessel or duct can be where nothing is said of an aneurysm. */
export interface Calibre {
  readonly words: RegExp;
  /** mm. */
  readonly most: string;
}

const row = (words: string, most: string): Calibre => ({
  words: new RegExp(`\\b(?:${words})\\b`, 'i'),
  most,
});

/** The first that fits counts. Far beyond any textbook figure; common practice, no source. */
const calibres: readonly Calibre[] = [
  row('cerebral|M[1-4]|A[1-3]|P[1-3]|basilar|meningeal|ophthalmic', '8'),
  row(
    'prostat(?:e|ic) arter(?:y|ies)|uterine arter(?:y|ies)|genicular|bronchial arter(?:y|ies)|gastroduodenal',
    '10',
  ),
  row('testicular|spermatic|ovarian|gonadal|saphenous|cephalic|basilic|brachial vein|adrenal vein', '25'),
  row('radial|ulnar|tibial|peroneal|digital|dorsalis pedis|coronary|lumbar arter(?:y|ies)', '10'),
  row(
    'carotid|vertebral artery|brachial artery|popliteal artery|femoral artery|(?:renal|hepatic|splenic|mesenteric) artery|subclavian artery|coeliac|celiac',
    '16',
  ),
  row(
    'iliac artery|renal vein|hepatic vein|jugular|brachiocephalic|subclavian vein|femoral vein|iliac vein|portal vein|fistula|graft',
    '30',
  ),
  row('ureter|ureteric|ureteral|bile duct|hepatic duct|biliary', '40'),
  row('cava|caval', '45'),
  row('pulmonary', '60'),
  row('aorta|aortic', '60'),
];

const wider = /\b(?:aneurysm\w*|ectasia|ectatic|varix|varices|malformation|megaureter|dissect\w+)\b/i;

/** The most that a place named so can measure across, in mm; undefined where the name does not tell. */
export const widest = (place: string, lesion = ''): string | undefined =>
  wider.test(`${place} ${lesion}`) ? undefined : calibres.find(({ words }) => words.test(place))?.most;
