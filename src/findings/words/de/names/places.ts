import { names } from '../../language.js';

/** Orte im Körper. Aus dem Gedächtnis. */
export const places = names(`
kidney: Niere
renal pelvis: Nierenbecken
ureter: Harnleiter
bladder: Harnblase
urinary bladder: Harnblase
bile duct: Gallengang
common bile duct: Ductus choledochus
common hepatic duct: Ductus hepaticus communis
hepatic duct: Ductus hepaticus
biliary tract: Gallenwege
duodenum: Duodenum
jejunum: Jejunum
papilla: Papille
oesophagus: Ösophagus
inferior vena cava: untere Hohlvene
superior vena cava: obere Hohlvene
femoral vein: V. femoralis
common femoral vein: V. femoralis communis
popliteal vein: V. poplitea
iliac vein: Beckenvene
common iliac vein: V. iliaca communis
internal jugular vein: V. jugularis interna
brachiocephalic vein: V. brachiocephalica
renal vein: Nierenvene
adrenal vein: Nebennierenvene
hepatic vein: Lebervene
ovarian vein: V. ovarica
testicular vein: V. testicularis
common femoral artery: A. femoralis communis
superficial femoral artery: A. femoralis superficialis
femoral artery: A. femoralis
popliteal artery: A. poplitea
radial artery: A. radialis
brachial artery: A. brachialis
iliac artery: Beckenarterie
common iliac artery: A. iliaca communis
external iliac artery: A. iliaca externa
internal iliac artery: A. iliaca interna
renal artery: Nierenarterie
uterine artery: A. uterina
prostate artery: Prostataarterie
bronchial artery: Bronchialarterie
splenic artery: Milzarterie
gastroduodenal artery: A. gastroduodenalis
subclavian artery: A. subclavia
subclavian vein: V. subclavia
common carotid artery: A. carotis communis
hepatic artery: Leberarterie
coeliac trunk: Truncus coeliacus
abdominal aorta: Bauchaorta
descending aorta: absteigende Aorta
aortic bifurcation: Aortenbifurkation
cavoatrial junction: kavoatrialer Übergang
right atrium: rechter Vorhof
cephalic vein: V. cephalica
basilic vein: V. basilica
portal vein: Pfortader
thoracic duct: Ductus thoracicus
liver: Leber
gallbladder: Gallenblase
stomach: Magen
spleen: Milz
peritoneal cavity: Peritonealhöhle
pelvic cavity: Beckenhöhle
abscess cavity: Abszesshöhle
pleura: Pleura
pleural space: Pleuraraum
lung: Lunge
breast: Brust
flank: Flanke
glenohumeral joint: Glenohumeralgelenk
abscess: Abszess
stenosis: Stenose
stricture: Striktur
occlusion: Verschluss
thrombosis: Thrombose
aneurysm: Aneurysma
closed: verschlossen
bile: Galle
blood: Blut
pus: Eiter
urine: Urin
`);
