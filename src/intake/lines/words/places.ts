import { bodyPartsIn } from '../../../trade/body.js';

/** Words that end the name of a place, and of no device. Common practice, no source. */
const heads = new Set(
  (
    'site sites compression jugular ij ijv cfa cfv sfa sfv pfa svc ivc sma smv ima imv gda cbd chd pa pv hv mpv ra rv la lv eia cia iia uae aorta brachial radial ulnar cephalic basilic ' +
    'femoral subclavian axillary carotid iliac iliacs popliteal tibial peroneal pedal duodenum jejunum ileum bowel colon caecum cecum oesophagus esophagus ' +
    'hilum hilus confluence muscle wall neck arm forearm leg thigh calf foot hand wrist chest track tract pocket bone disc disk joint vertebra ' +
    'thyroid breast prostate pancreas adrenal spleen gallbladder tree system ampulla papilla pylorus rectum effusion ascites arch sinus ostium ' +
    'origin territory cyst seroma haematoma hematoma urinoma biloma lymphocele ureter ureters urethra peritoneum midline shoulder hip knee elbow ' +
    'ankle stricture strictures stenosis stenoses occlusion occlusions lesion lesions narrowing narrowings obstruction blockage tumour tumours tumor tumors ' +
    'mass masses clot thrombus vein veins artery arteries duct ducts branch branches trunk axis fistula graft avf avg segment segments seg pole poles lobe lobes ' +
    'pelvis bladder kidney kidneys liver cavity collection collections abscess abscesses stomach skin calyx calyces calix aneurysm pseudoaneurysm sac node ' +
    'nodule cava atrium ventricle groin vessel vessels outflow inflow anastomosis waist spine lung pleura abdomen junction space pedicle body level ' +
    'pericardium bronchus trachea uterus ovary fibroid varix varices shunt portal splenic mesenteric gastric hepatic renal uterine coeliac celiac ' +
    'lumen bifurcation crossover stone stones calculus capsule rib ribs tendon bursa canal foramen root facet sacrum hemithorax hemidiaphragm flank ' +
    'side limb circuit venotomy arteriotomy valve fundus antrum body mediastinum perineum scrotum testis testicular gonadal saphenous perforator cortex parenchyma tissue ' +
    'infundibulum moiety conduit stoma vuj puj pouch remnant dome fissure base apex renals iliacs hepatics profunda tp at pt acl sgv gsv ssv ' +
    'dilatation recess seg sfj spj cavoatrial isthmus cervix lesser thorax plexus ganglion pubis femur humerus tibia vena'
  ).split(' '),
);

/** Words beside them. Common practice, no source. */
const modifiers = new Set(
  (
    'puncture access entry exit insertion biopsy left right both bilateral upper lower mid middle main common proper internal external proximal distal superior inferior anterior posterior ' +
    'lateral medial central peripheral dorsal ventral deep superficial great greater small big large first second third fourth fifth sixth seventh ' +
    'eighth ninth tenth last one two three four five six seven eight of the native transplant old side segmental subsegmental lobar sectoral interpolar jejunal ileal ' +
    'colic duodenal biliary bile intrahepatic extrahepatic perihepatic subphrenic subhepatic paracolic pelvic presacral psoas retroperitoneal peritoneal pleural ' +
    'pericardial intercostal cavoatrial innominate brachiocephalic azygos lumbar vertebral gastroduodenal pancreaticoduodenal renal hepatic splenic mesenteric ' +
    'bronchial pulmonary circumflex profunda dorsalis feeding target bleeding collateral venous arterial dialysis dialysate anastomotic tight long short ' +
    'infected dilated obstructed hydronephrotic adrenal parietal diaphragmatic hypogastric obturator pudendal vesical uterine ovarian gonadal testicular ' +
    'spermatic cubital antecubital median juxta loculated subcapsular paraaortic para level same other whole free tumour liver kidney lung bowel stomach arch ' +
    'bladder cava true false top bottom mouth middle end edge low high floor dome rectus abdominis abdominal soft in to at and near far contralateral ipsilateral dominant urinary collecting ' +
    'gastro oesophageal esophageal marginal gluteal sciatic inguinal ischiorectal perirectal perianal perinephric cystic choledochal hilar segment pole lobe femoral iliac jugular ' +
    'internal axillary popliteal tibial peroneal radial brachial basilic cephalic carotid subclavian portal coeliac celiac gastric'
  ).split(' '),
);

const plain = (word: string) => word.toLowerCase().replace(/['’]s$/, '');

/** `L2`, `segment 6`, `4a`, `3rd`, `VIII`. */
const numbered =
  /^(?:[cdtls]\d{1,2}(?:[/-][cdtls]?\d{1,2})?|\d{1,2}(?:st|nd|rd|th|[a-d])?|[ivx]{1,5}[ab]?)$/i;

const isBody = (word: string) => word.length > 3 && bodyPartsIn(word).length > 0;

/** A word that ends the name of a place, and of no device. */
export const isPlaceWord = (word: string): boolean => heads.has(plain(word));

/** Every word that may stand in the name of a place. */
export const placeWords: ReadonlySet<string> = new Set([...heads, ...modifiers]);

/** Whether words name a place, and no word of them says anything else. */
export function isKnownPlace(text: string): boolean {
  const words = text
    .split(/[\s,/-]+/)
    .map(plain)
    .filter(word => word !== '');
  // That of the kidney, or the patient's.
  if (/^(?:the )?pelvis$/i.test(text.trim())) return false;
  return (
    words.some(word => heads.has(word) || isBody(word)) &&
    words.every(word => heads.has(word) || modifiers.has(word) || numbered.test(word) || isBody(word))
  );
}

/** What narrows or blocks a way, and is crossed. */
export const isNarrow = (text: string): boolean =>
  /strict|stenos|occlu|lesion|narrow|obstruct|block|tumou?r|\bstones?\b|calcul|\bclot\b|thromb|\bvalve|\bweb\b|anastomosis|compression/i.test(
    text,
  );
