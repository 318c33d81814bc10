import { names } from '../../language.js';

/** Types d’interventions. De mémoire. */
export const cases = names(`
angiography: angiographie
limb artery angioplasty: angioplastie d’une artère de membre
limb artery stent: stent d’une artère de membre
peripheral arteriography: artériographie périphérique
limb artery atherectomy: athérectomie d’une artère de membre
limb artery thrombectomy: thrombectomie d’une artère de membre
angioplasty: angioplastie
iliac artery angioplasty: angioplastie de l’artère iliaque
iliac artery stent: stent de l’artère iliaque
renal artery angioplasty: angioplastie de l’artère rénale
renal artery stent: stent de l’artère rénale
renal denervation: dénervation rénale
mesenteric artery angioplasty: angioplastie de l’artère mésentérique
mesenteric artery stent: stent de l’artère mésentérique
mesenteric artery thrombectomy: thrombectomie de l’artère mésentérique
aortic aneurysm repair: traitement endovasculaire d’un anévrisme aortique
thoracic aortic repair: traitement endovasculaire de l’aorte thoracique
aortic occlusion balloon: occlusion aortique par ballonnet
subclavian artery angioplasty: angioplastie de l’artère subclavière
pseudoaneurysm treatment: traitement d’un faux anévrisme
foreign body retrieval: extraction d’un corps étranger
thrombolysis: thrombolyse
pulmonary embolism treatment: traitement d’une embolie pulmonaire
pulmonary artery thrombectomy: thrombectomie de l’artère pulmonaire
pulmonary angiography: angiographie pulmonaire
carotid artery stent: stent carotidien
cerebral angiography: angiographie cérébrale
stroke thrombectomy: thrombectomie d’un accident vasculaire cérébral
intracranial aneurysm coiling: embolisation par coils d’un anévrisme intracrânien
flow diversion: pose d’un diverteur de flux
brain arteriovenous malformation embolisation: embolisation d’une malformation artérioveineuse cérébrale
middle meningeal artery embolisation: embolisation de l’artère méningée moyenne
intracranial stent: stent intracrânien
epistaxis embolisation: embolisation pour épistaxis
petrosal sinus sampling: cathétérisme des sinus pétreux
venous sinus stent: stent d’un sinus veineux
embolisation: embolisation
gastrointestinal bleeding embolisation: embolisation pour hémorragie digestive
uterine artery embolisation: embolisation de l’artère utérine
prostate artery embolisation: embolisation des artères prostatiques
pelvic embolisation: embolisation pelvienne
bronchial artery embolisation: embolisation des artères bronchiques
splenic artery embolisation: embolisation de l’artère splénique
renal artery embolisation: embolisation de l’artère rénale
hepatic artery embolisation: embolisation de l’artère hépatique
visceral aneurysm embolisation: embolisation d’un anévrisme viscéral
chemoembolisation: chimioembolisation
radioembolisation: radioembolisation
radioembolisation work-up: bilan avant radioembolisation
genicular artery embolisation: embolisation des artères géniculées
haemorrhoid embolisation: embolisation hémorroïdaire
bariatric embolisation: embolisation bariatrique
endoleak embolisation: embolisation d’une endofuite
arteriovenous malformation embolisation: embolisation d’une malformation artérioveineuse
pulmonary arteriovenous malformation embolisation: embolisation d’une malformation artérioveineuse pulmonaire
bone metastasis embolisation: embolisation d’une métastase osseuse
thyroid artery embolisation: embolisation des artères thyroïdiennes
varicocele embolisation: embolisation de varicocèle
pelvic vein embolisation: embolisation des veines pelviennes
variceal embolisation: embolisation de varices
portal vein embolisation: embolisation portale
liver venous deprivation: déprivation veineuse hépatique
portal vein recanalisation: recanalisation portale
transjugular portosystemic shunt: shunt intrahépatique portosystémique transjugulaire (TIPS)
portosystemic shunt revision: révision d’un shunt portosystémique
hepatic venous pressure measurement: mesure des pressions veineuses hépatiques
hepatic vein angioplasty: angioplastie d’une veine hépatique
caval filter insertion: pose d’un filtre cave
caval filter retrieval: retrait d’un filtre cave
complex caval filter retrieval: retrait complexe d’un filtre cave
venography: phlébographie
iliac vein stent: stent de la veine iliaque
deep vein thrombectomy: thrombectomie veineuse profonde
superior vena cava stent: stent de la veine cave supérieure
central vein angioplasty: angioplastie d’une veine centrale
endovenous ablation: ablation endoveineuse
vein sclerotherapy: sclérothérapie veineuse
adrenal vein sampling: prélèvements veineux surrénaliens
renal vein sampling: prélèvements veineux rénaux
dialysis circuit angioplasty: angioplastie d’un abord de dialyse
dialysis circuit thrombectomy: thrombectomie d’un abord de dialyse
dialysis circuit stent: stent d’un abord de dialyse
fistulography: fistulographie
dialysis fistula creation: création d’une fistule de dialyse
dialysis circuit embolisation: embolisation d’un abord de dialyse
central venous access: abord veineux central
tunnelled catheter insertion: pose d’un cathéter tunnellisé
dialysis catheter insertion: pose d’un cathéter de dialyse
dialysis catheter exchange: changement d’un cathéter de dialyse
venous port: pose d’une chambre implantable
port removal: retrait d’une chambre implantable
port check: contrôle d’une chambre implantable
peripherally inserted central catheter insertion: pose d’un PICC
tunnelled catheter removal: retrait d’un cathéter tunnellisé
peritoneal dialysis catheter insertion: pose d’un cathéter de dialyse péritonéale
hepatic arterial port insertion: pose d’une chambre implantable artérielle hépatique
isolated liver perfusion: perfusion hépatique isolée
lymphangiography: lymphographie
thoracic duct embolisation: embolisation du canal thoracique
lymphocele sclerotherapy: sclérothérapie de lymphocèle
lymphatic malformation sclerotherapy: sclérothérapie d’une malformation lymphatique
venous malformation sclerotherapy: sclérothérapie d’une malformation veineuse
nephrostomy: néphrostomie
nephrostomy exchange: changement de néphrostomie
nephrostomy removal: retrait de néphrostomie
nephrostogram: néphrostographie
nephrolithotomy access: accès pour néphrolithotomie
ureteric stent: sonde urétérale interne
ureteric stent exchange: changement de sonde urétérale
ureteric stent removal: retrait de sonde urétérale
ureteric dilatation: dilatation urétérale
ureteric occlusion: occlusion urétérale
suprapubic catheter insertion: pose d’une sonde sus-pubienne
suprapubic catheter exchange: changement de sonde sus-pubienne
renal cyst drainage: drainage d’un kyste rénal
fallopian tube recanalisation: recanalisation tubaire
biliary drainage: drainage biliaire
cholangiography: cholangiographie
biliary drain exchange: changement de drain biliaire
biliary drain removal: retrait de drain biliaire
tube cholangiography: cholangiographie par le drain
biliary stent: stent biliaire
biliary dilatation: dilatation biliaire
biliary stone removal: extraction de calculs biliaires
biliary biopsy: biopsie biliaire
biliary ablation: ablation biliaire
cholangioscopy: cholangioscopie
cholecystostomy: cholécystostomie
gallbladder ablation: ablation de la vésicule biliaire
gastrostomy: gastrostomie
gastrojejunostomy: gastrojéjunostomie
jejunostomy: jéjunostomie
caecostomy: cæcostomie
gastrostomy exchange: changement de gastrostomie
gastrostomy removal: retrait de gastrostomie
gastrostomy check: contrôle de gastrostomie
nasojejunal tube insertion: pose d’une sonde nasojéjunale
oesophageal stent: stent œsophagien
oesophageal dilatation: dilatation œsophagienne
duodenal stent: stent duodénal
colonic stent: stent colique
gastrointestinal dilatation: dilatation digestive
intussusception reduction: réduction d’invagination
tracheobronchial stent: stent trachéobronchique
lacrimal dilatation: dilatation lacrymale
sialography: sialographie
abscess drainage: drainage d’abcès
pancreatic collection drainage: drainage d’une collection pancréatique
superficial abscess drainage: drainage d’un abcès superficiel
lymphocele drainage: drainage de lymphocèle
liver cyst sclerotherapy: sclérothérapie d’un kyste hépatique
abscess drain exchange: changement de drain d’abcès
drain removal: retrait de drain
drain check: contrôle de drain
paracentesis: paracentèse
thoracentesis: thoracocentèse
chest drain insertion: pose d’un drain thoracique
tunnelled drain: drain tunnellisé
tunnelled drain removal: retrait d’un drain tunnellisé
pericardial drainage: drainage péricardique
biopsy: biopsie
liver biopsy: biopsie hépatique
kidney biopsy: biopsie rénale
spleen biopsy: biopsie splénique
pancreas biopsy: biopsie pancréatique
adrenal biopsy: biopsie surrénalienne
lung biopsy: biopsie pulmonaire
mediastinal biopsy: biopsie médiastinale
pleural biopsy: biopsie pleurale
retroperitoneal biopsy: biopsie rétropéritonéale
spine biopsy: biopsie rachidienne
bone biopsy: biopsie osseuse
bone marrow biopsy: biopsie ostéomédullaire
lymph node biopsy: biopsie ganglionnaire
soft tissue biopsy: biopsie des parties molles
breast biopsy: biopsie mammaire
thyroid biopsy: biopsie thyroïdienne
prostate biopsy: biopsie prostatique
transjugular liver biopsy: biopsie hépatique transjugulaire
transjugular kidney biopsy: biopsie rénale transjugulaire
localisation: repérage
fiducial placement: pose de repères
ablation: ablation
liver ablation: ablation hépatique
kidney ablation: ablation rénale
lung ablation: ablation pulmonaire
bone ablation: ablation osseuse
soft tissue ablation: ablation des parties molles
adrenal ablation: ablation surrénalienne
pancreas ablation: ablation pancréatique
prostate ablation: ablation prostatique
thyroid ablation: ablation thyroïdienne
ethanol ablation: alcoolisation
brachytherapy: curiethérapie
vertebroplasty: vertébroplastie
kyphoplasty: cyphoplastie
cementoplasty: cimentoplastie
percutaneous screw fixation: vissage percutané
epidural injection: infiltration épidurale
nerve root block: infiltration radiculaire
cervical facet joint injection: infiltration articulaire postérieure cervicale
facet joint injection: infiltration articulaire postérieure
sacroiliac joint injection: infiltration sacro-iliaque
discography: discographie
joint injection: infiltration articulaire
calcific tendinopathy lavage: ponction-lavage d’une tendinopathie calcifiante
nerve block: bloc nerveux
coeliac plexus block: bloc du plexus cœliaque
lumbar puncture: ponction lombaire
`);
