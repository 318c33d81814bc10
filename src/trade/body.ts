import { remembered } from '../record/remembered.js';

/** A part of the body whose side matters, or that has a left and a right branch. */
export interface BodyPart {
  readonly name: string;
  /** Parts of one region may stand for each other in a title: 'left leg' for a femoral artery. */
  readonly region: string;
  /** There is one on each side, so that a side must be given. */
  readonly paired: boolean;
  readonly words: RegExp;
}

const part = (name: string, region: string, paired: boolean, words: string): BodyPart => ({
  name,
  region,
  paired,
  words: new RegExp(`\\b(?:${words})\\b`, 'i'),
});

/** Common practice, no source. */
const parts: readonly BodyPart[] = [
  part(
    'kidney',
    'kidney',
    true,
    'kidneys?|renal|ureter(?:s|ic|al)?|collecting system|pyonephrosis|nephrostom(?:y|ies)|caly(?:x|ces)|pelvicalyceal|pyelonephritis|hydronephrosis|flank|nephrectomy|(?:upper|lower|mid|interpolar) pole',
  ),
  part('adrenal', 'adrenal', true, 'adrenals?|suprarenal'),
  part(
    'lung',
    'thorax',
    true,
    'lungs?|pulmonary|(?:upper|middle|lower) lobes?|lingula|(?:intercosto)?bronch(?:us|ial|i)',
  ),
  part(
    'pleura',
    'thorax',
    true,
    'pleura|pleural|chest (?:drain|tube)|hemithorax|chylothorax|hydrothorax|haemothorax|pneumothorax|empyema|thoracentesis',
  ),
  part(
    'chest wall',
    'chest wall',
    false,
    'chest|axillary line|intercostal space|ribs?|clavicle|shoulder blade|scapula|infraclavicular',
  ),
  part('breast', 'breast', true, 'breasts?|mammary'),
  part('iliac', 'leg', true, 'iliac'),
  part('femoral', 'leg', true, 'femoral|femoris|groins?|inguinal|femoropopliteal|thighs?'),
  part(
    'leg',
    'leg',
    true,
    'legs?|lower limbs?|popliteal|tibial|peroneal|saphenous|calf|feet|foot|ankle|dorsalis pedis|femur',
  ),
  part('knee', 'knee', true, 'knees?|genicular'),
  part('hip', 'hip', true, 'hips?|acetabul(?:um|ar)'),
  part('neck vein', 'neck', true, 'jugular'),
  part('subclavian', 'arm', true, 'subclavian|axillary (?:artery|vein)|innominate vein|brachiocephalic vein'),
  part(
    'arm',
    'arm',
    true,
    'arms?|upper arms?|forearms?|upper limbs?|elbow|wrists?|hands?|radial|ulnar|brachial|basilic|cephalic|cubital|snuffbox|humer(?:us|al)',
  ),
  part('shoulder', 'shoulder', true, 'shoulders?(?! blade)|glenohumeral'),
  part('carotid', 'head', true, 'carotid'),
  part(
    'brain',
    'head',
    true,
    '(?:middle|anterior|posterior) cerebral|MCA|M[12] segment|meningeal|hemisphere|sphenopalatine|facial|maxillary|ophthalmic',
  ),
  part('vertebral artery', 'neck artery', true, 'vertebral artery'),
  part('uterine artery', 'pelvis', true, 'uterine arter(?:y|ies)'),
  part('ovary', 'pelvis', true, 'ovar(?:y|ies|ian)|fallopian|adnexa|adnexal'),
  part(
    'testis',
    'pelvis',
    true,
    'testicular|testis|testes|spermatic|varicocele|varicoceles|scrotum|gonadal vein',
  ),
  part('prostate artery', 'pelvis', true, 'prostat(?:e|ic) arter(?:y|ies)'),
  part(
    'pedicle',
    'spine',
    true,
    'pedicles?|facets?|(?:[CTLS]\\d+(?:/\\d)? |nerve )roots?|radiculopathy|sciatica|sacroiliac|neural foramen',
  ),
  part(
    'neck',
    'neck',
    false,
    '(?<!femoral |surgical |anatomical |bladder )neck(?! of| diameter| angle)|cervical (?:node|lymph)|submandibular|supraclavicular|parotid',
  ),
  part('axilla', 'axilla', false, 'axilla|axillary node|axillary lymph'),
  part('buttock', 'buttock', false, 'buttocks?|transgluteal|gluteus'),
  part('lumbar artery', 'lumbar', false, '(?:ilio)?lumbar arter(?:y|ies)'),
  part(
    'abdomen',
    'abdomen',
    false,
    'abdomen|abdominal wall|hypochondrium|iliac fossa|paracolic|subphrenic|subcostal|psoas',
  ),
  part('liver', 'liver', false, 'hepatic|liver|bile duct|biliary|portal'),
  part('thyroid', 'thyroid', false, 'thyroid|parathyroid'),
  part('heart', 'heart', false, 'atrium|atrial|ventric(?:le|ular)|coronary|heart'),
  part('stomach', 'stomach', false, 'gastric|gastroepiploic|colic|colon'),
];

/** The parts of the body that a text names. */
export const bodyPartsIn: (text: string) => readonly BodyPart[] = remembered(text =>
  parts.filter(({ words }) => words.test(text)),
);

/** Organs that one sex has. */
const female =
  /\b(?:uter(?:us|ine)|fibroids?|myomas?|ovar(?:y|ies|ian)|fallopian|hysterosalping\w*|endometri\w+|cervix uteri|vagina\w*|postpartum|adenomyosis|placenta\w*|hysterectom\w+|menopaus\w+|post-?menopaus\w+|breast-?feeding|lactating|c(?:a)?esarean|pre-?eclampsia|endometriosis|vulva\w*|labi(?:a|al)|oophorectom\w+|gravida)\b/i;
const male =
  /\b(?:prostat(?:e|ic)|testicular|testis|testes|varicocele\w*|scrot(?:um|al)|peni(?:s|le)|spermatic|seminal|prostatectom\w+|orchi\w+|vasectom\w+|erectile|cryptorchid\w+)\b/i;

/** The sex that a text can only be about; undefined where it tells of neither or of both. */
export const sexOfOrgans: (text: string) => 'female' | 'male' | undefined = remembered(text => {
  const [ofWoman, ofMan] = [female.test(text), male.test(text)];
  return ofWoman === ofMan ? undefined : ofWoman ? 'female' : 'male';
});

const ofWoman = 'woman|girl|lady|female|widow|housewife|grandmother';
const ofMan = 'man|boy|gentleman|male|widower|grandfather';
const person = `${ofWoman}|${ofMan}`;
const age = '\\d{1,3}[- ]?(?:years?|yrs?|y|months?|mo|weeks?|days?)(?:[- ]of[- ]age|[- /]?(?:old|o))';
const kin =
  'wife|husband|spouse|partner|son|sons|daughter|daughters|mother|father|sister|brother|parents|family|children|carer|friend|neighbour|neighbor|niece|nephew';
/** Ways to speak of the patient; the group is a word of one sex. Common practice, no source. */
const ways: readonly RegExp[] = [
  new RegExp(`\\b${age}\\.?\\s+(?:[\\w-]+\\s+){0,3}?(${person})\\b`, 'i'),
  /(?:^|[.;,]\s)\d{1,3}\s?(?:y\/?o\s?|yr\s?)?([MF])\b(?!\s?\d)/,
  new RegExp(
    `(?:^|[.;]\\s)(?:(?:an?|this|the|our|very|[a-z]+(?:ing|ed|y|al|ant|ail|lly|er)?)\\s+){0,3}(${person})\\b(?!-|s\\b| (?:catheter|end|connector|adapter|luer|pelvis|urethra|sheath))`,
    'i',
  ),
  new RegExp(`\\b(his|her)\\s+(?:\\w+\\s+)?(?:${kin})\\b`, 'i'),
  /\b(himself|herself)\b/i,
  /(?:^|[.;,]\s|\band |\bthat |\bwhen )(he|she)\s+(?:is|was|has|had|feels|felt|walks|walked|went|goes|may|can|should|must|will|tolerated|takes|took|lives|remains|became|did|does)\b/i,
  /\b(?:fetch|collect|take|bring|drive|send|tell|call|watch|keep|ask|let|advise|told|gave|given to|monitor|nurse|wake|woke|reassured?)\s+(him|her)\b(?!\s+\w+(?:\s|$)(?:is|wife))/i,
];
const womanly = new RegExp(`^(?:${ofWoman}|her|herself|she|F)$`, 'i');
/** Somebody else is spoken of as well, so that 'she' may be the daughter. */
const another = new RegExp(
  `\\b(?:${kin}|donor|surgeon|referrer|operator|consultant|anaesthetist|anesthesiologist|registrar|doctor|Dr|GP|nurse|midwife|baby|child of|relatives?)\\b`,
  'i',
);

/** The sex of the patient by the words that speak of them; undefined where nothing tells, or both are told. */
export const sexOfPerson: (text: string) => 'female' | 'male' | undefined = remembered(text => {
  const found = ways.flatMap((way, i) => {
    const match = way.exec(text);
    const word = match?.[1];
    if (!match || word === undefined) return [];
    const before = text.slice(0, match.index);
    // From the pronouns on a word may be about someone named before it; 'wife' itself follows its own pronoun.
    if (another.test(i === 3 || i < 3 ? before : text)) return [];
    return [womanly.test(word)];
  });
  return found.length === 0 || new Set(found).size > 1 ? undefined : found[0] ? 'female' : 'male';
});
