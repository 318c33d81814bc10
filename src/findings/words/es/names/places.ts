import { names } from '../../language.js';

/** Lugares del cuerpo. De memoria. */
export const places = names(`
kidney: riñón
renal pelvis: pelvis renal
ureter: uréter
bladder: vejiga
urinary bladder: vejiga urinaria
bile duct: vía biliar
common bile duct: colédoco
common hepatic duct: conducto hepático común
hepatic duct: conducto hepático
biliary tract: vías biliares
duodenum: duodeno
jejunum: yeyuno
papilla: papila
oesophagus: esófago
inferior vena cava: vena cava inferior
superior vena cava: vena cava superior
femoral vein: vena femoral
common femoral vein: vena femoral común
popliteal vein: vena poplítea
iliac vein: vena ilíaca
common iliac vein: vena ilíaca común
internal jugular vein: vena yugular interna
brachiocephalic vein: vena braquiocefálica
renal vein: vena renal
adrenal vein: vena suprarrenal
hepatic vein: vena hepática
ovarian vein: vena ovárica
testicular vein: vena testicular
common femoral artery: arteria femoral común
superficial femoral artery: arteria femoral superficial
femoral artery: arteria femoral
popliteal artery: arteria poplítea
radial artery: arteria radial
brachial artery: arteria braquial
iliac artery: arteria ilíaca
common iliac artery: arteria ilíaca común
external iliac artery: arteria ilíaca externa
internal iliac artery: arteria ilíaca interna
renal artery: arteria renal
uterine artery: arteria uterina
prostate artery: arteria prostática
bronchial artery: arteria bronquial
splenic artery: arteria esplénica
gastroduodenal artery: arteria gastroduodenal
subclavian artery: arteria subclavia
subclavian vein: vena subclavia
common carotid artery: arteria carótida común
hepatic artery: arteria hepática
coeliac trunk: tronco celíaco
abdominal aorta: aorta abdominal
descending aorta: aorta descendente
aortic bifurcation: bifurcación aórtica
cavoatrial junction: unión cavoauricular
right atrium: aurícula derecha
cephalic vein: vena cefálica
basilic vein: vena basílica
portal vein: vena porta
thoracic duct: conducto torácico
liver: hígado
gallbladder: vesícula biliar
stomach: estómago
spleen: bazo
peritoneal cavity: cavidad peritoneal
pelvic cavity: cavidad pélvica
abscess cavity: cavidad del absceso
pleura: pleura
pleural space: espacio pleural
lung: pulmón
breast: mama
flank: flanco
glenohumeral joint: articulación glenohumeral
abscess: absceso
stenosis: estenosis
stricture: estenosis
occlusion: oclusión
thrombosis: trombosis
aneurysm: aneurisma
closed: cerrado
bile: bilis
blood: sangre
pus: pus
urine: orina
`);
