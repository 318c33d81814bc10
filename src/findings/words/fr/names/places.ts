import { names } from '../../language.js';

/** Endroits du corps. De mémoire. */
export const places = names(`
kidney: rein
renal pelvis: bassinet
ureter: uretère
bladder: vessie
urinary bladder: vessie
bile duct: voie biliaire
common bile duct: canal cholédoque
common hepatic duct: canal hépatique commun
hepatic duct: canal hépatique
biliary tract: voies biliaires
duodenum: duodénum
jejunum: jéjunum
papilla: papille
oesophagus: œsophage
inferior vena cava: veine cave inférieure
superior vena cava: veine cave supérieure
femoral vein: veine fémorale
common femoral vein: veine fémorale commune
popliteal vein: veine poplitée
iliac vein: veine iliaque
common iliac vein: veine iliaque commune
internal jugular vein: veine jugulaire interne
brachiocephalic vein: veine brachiocéphalique
renal vein: veine rénale
adrenal vein: veine surrénale
hepatic vein: veine hépatique
ovarian vein: veine ovarienne
testicular vein: veine testiculaire
common femoral artery: artère fémorale commune
superficial femoral artery: artère fémorale superficielle
femoral artery: artère fémorale
popliteal artery: artère poplitée
radial artery: artère radiale
brachial artery: artère brachiale
iliac artery: artère iliaque
common iliac artery: artère iliaque commune
external iliac artery: artère iliaque externe
internal iliac artery: artère iliaque interne
renal artery: artère rénale
uterine artery: artère utérine
prostate artery: artère prostatique
bronchial artery: artère bronchique
splenic artery: artère splénique
gastroduodenal artery: artère gastroduodénale
subclavian artery: artère subclavière
subclavian vein: veine subclavière
common carotid artery: artère carotide commune
hepatic artery: artère hépatique
coeliac trunk: tronc cœliaque
abdominal aorta: aorte abdominale
descending aorta: aorte descendante
aortic bifurcation: bifurcation aortique
cavoatrial junction: jonction cavo-atriale
right atrium: oreillette droite
cephalic vein: veine céphalique
basilic vein: veine basilique
portal vein: veine porte
thoracic duct: canal thoracique
liver: foie
gallbladder: vésicule biliaire
stomach: estomac
spleen: rate
peritoneal cavity: cavité péritonéale
pelvic cavity: cavité pelvienne
abscess cavity: cavité de l’abcès
pleura: plèvre
pleural space: espace pleural
lung: poumon
breast: sein
flank: flanc
glenohumeral joint: articulation gléno-humérale
abscess: abcès
stenosis: sténose
stricture: sténose
occlusion: occlusion
thrombosis: thrombose
aneurysm: anévrisme
closed: fermé
bile: bile
blood: sang
pus: pus
urine: urine
`);
