import { names } from '../../language.js';

/** Clases de procedimientos. De memoria. */
export const cases = names(`
angiography: angiografía
limb artery angioplasty: angioplastia de arteria de extremidad
limb artery stent: stent en arteria de extremidad
peripheral arteriography: arteriografía periférica
limb artery atherectomy: aterectomía de arteria de extremidad
limb artery thrombectomy: trombectomía de arteria de extremidad
angioplasty: angioplastia
iliac artery angioplasty: angioplastia de la arteria ilíaca
iliac artery stent: stent en la arteria ilíaca
renal artery angioplasty: angioplastia de la arteria renal
renal artery stent: stent en la arteria renal
renal denervation: denervación renal
mesenteric artery angioplasty: angioplastia de la arteria mesentérica
mesenteric artery stent: stent en la arteria mesentérica
mesenteric artery thrombectomy: trombectomía de la arteria mesentérica
aortic aneurysm repair: reparación endovascular de aneurisma aórtico
thoracic aortic repair: reparación endovascular de la aorta torácica
aortic occlusion balloon: oclusión aórtica con balón
subclavian artery angioplasty: angioplastia de la arteria subclavia
pseudoaneurysm treatment: tratamiento de seudoaneurisma
foreign body retrieval: extracción de cuerpo extraño
thrombolysis: trombólisis
pulmonary embolism treatment: tratamiento de embolia pulmonar
pulmonary artery thrombectomy: trombectomía de la arteria pulmonar
pulmonary angiography: angiografía pulmonar
carotid artery stent: stent carotídeo
cerebral angiography: angiografía cerebral
stroke thrombectomy: trombectomía por ictus
intracranial aneurysm coiling: embolización con coils de aneurisma intracraneal
flow diversion: implante de desviador de flujo
brain arteriovenous malformation embolisation: embolización de malformación arteriovenosa cerebral
middle meningeal artery embolisation: embolización de la arteria meníngea media
intracranial stent: stent intracraneal
epistaxis embolisation: embolización por epistaxis
petrosal sinus sampling: muestreo de senos petrosos
venous sinus stent: stent en seno venoso
embolisation: embolización
gastrointestinal bleeding embolisation: embolización por hemorragia digestiva
uterine artery embolisation: embolización de la arteria uterina
prostate artery embolisation: embolización de las arterias prostáticas
pelvic embolisation: embolización pélvica
bronchial artery embolisation: embolización de arterias bronquiales
splenic artery embolisation: embolización de la arteria esplénica
renal artery embolisation: embolización de la arteria renal
hepatic artery embolisation: embolización de la arteria hepática
visceral aneurysm embolisation: embolización de aneurisma visceral
chemoembolisation: quimioembolización
radioembolisation: radioembolización
radioembolisation work-up: planificación de radioembolización
genicular artery embolisation: embolización de las arterias geniculares
haemorrhoid embolisation: embolización hemorroidal
bariatric embolisation: embolización bariátrica
endoleak embolisation: embolización de endofuga
arteriovenous malformation embolisation: embolización de malformación arteriovenosa
pulmonary arteriovenous malformation embolisation: embolización de malformación arteriovenosa pulmonar
bone metastasis embolisation: embolización de metástasis ósea
thyroid artery embolisation: embolización de arterias tiroideas
varicocele embolisation: embolización de varicocele
pelvic vein embolisation: embolización de venas pélvicas
variceal embolisation: embolización de varices
portal vein embolisation: embolización portal
liver venous deprivation: deprivación venosa hepática
portal vein recanalisation: recanalización portal
transjugular portosystemic shunt: derivación portosistémica intrahepática transyugular (TIPS)
portosystemic shunt revision: revisión de derivación portosistémica
hepatic venous pressure measurement: medición de presión venosa hepática
hepatic vein angioplasty: angioplastia de vena hepática
caval filter insertion: implante de filtro de vena cava
caval filter retrieval: retirada de filtro de vena cava
complex caval filter retrieval: retirada compleja de filtro de vena cava
venography: flebografía
iliac vein stent: stent en vena ilíaca
deep vein thrombectomy: trombectomía venosa profunda
superior vena cava stent: stent en vena cava superior
central vein angioplasty: angioplastia de vena central
endovenous ablation: ablación endovenosa
vein sclerotherapy: escleroterapia venosa
adrenal vein sampling: muestreo de venas suprarrenales
renal vein sampling: muestreo de venas renales
dialysis circuit angioplasty: angioplastia de acceso de diálisis
dialysis circuit thrombectomy: trombectomía de acceso de diálisis
dialysis circuit stent: stent en acceso de diálisis
fistulography: fistulografía
dialysis fistula creation: creación de fístula de diálisis
dialysis circuit embolisation: embolización de acceso de diálisis
central venous access: acceso venoso central
tunnelled catheter insertion: colocación de catéter tunelizado
dialysis catheter insertion: colocación de catéter de diálisis
dialysis catheter exchange: recambio de catéter de diálisis
venous port: implante de reservorio venoso
port removal: retirada de reservorio
port check: comprobación de reservorio
peripherally inserted central catheter insertion: colocación de PICC
tunnelled catheter removal: retirada de catéter tunelizado
peritoneal dialysis catheter insertion: colocación de catéter de diálisis peritoneal
hepatic arterial port insertion: implante de reservorio arterial hepático
isolated liver perfusion: perfusión hepática aislada
lymphangiography: linfografía
thoracic duct embolisation: embolización del conducto torácico
lymphocele sclerotherapy: escleroterapia de linfocele
lymphatic malformation sclerotherapy: escleroterapia de malformación linfática
venous malformation sclerotherapy: escleroterapia de malformación venosa
nephrostomy: nefrostomía
nephrostomy exchange: recambio de nefrostomía
nephrostomy removal: retirada de nefrostomía
nephrostogram: nefrostografía
nephrolithotomy access: acceso para nefrolitotomía
ureteric stent: catéter doble J ureteral
ureteric stent exchange: recambio de catéter doble J
ureteric stent removal: retirada de catéter doble J
ureteric dilatation: dilatación ureteral
ureteric occlusion: oclusión ureteral
suprapubic catheter insertion: colocación de catéter suprapúbico
suprapubic catheter exchange: recambio de catéter suprapúbico
renal cyst drainage: drenaje de quiste renal
fallopian tube recanalisation: recanalización tubárica
biliary drainage: drenaje biliar
cholangiography: colangiografía
biliary drain exchange: recambio de drenaje biliar
biliary drain removal: retirada de drenaje biliar
tube cholangiography: colangiografía por el drenaje
biliary stent: stent biliar
biliary dilatation: dilatación biliar
biliary stone removal: extracción de cálculos biliares
biliary biopsy: biopsia biliar
biliary ablation: ablación biliar
cholangioscopy: colangioscopia
cholecystostomy: colecistostomía
gallbladder ablation: ablación de vesícula biliar
gastrostomy: gastrostomía
gastrojejunostomy: gastroyeyunostomía
jejunostomy: yeyunostomía
caecostomy: cecostomía
gastrostomy exchange: recambio de gastrostomía
gastrostomy removal: retirada de gastrostomía
gastrostomy check: comprobación de gastrostomía
nasojejunal tube insertion: colocación de sonda nasoyeyunal
oesophageal stent: stent esofágico
oesophageal dilatation: dilatación esofágica
duodenal stent: stent duodenal
colonic stent: stent colónico
gastrointestinal dilatation: dilatación gastrointestinal
intussusception reduction: reducción de invaginación
tracheobronchial stent: stent traqueobronquial
lacrimal dilatation: dilatación lagrimal
sialography: sialografía
abscess drainage: drenaje de absceso
pancreatic collection drainage: drenaje de colección pancreática
superficial abscess drainage: drenaje de absceso superficial
lymphocele drainage: drenaje de linfocele
liver cyst sclerotherapy: escleroterapia de quiste hepático
abscess drain exchange: recambio de drenaje de absceso
drain removal: retirada de drenaje
drain check: comprobación de drenaje
paracentesis: paracentesis
thoracentesis: toracocentesis
chest drain insertion: colocación de drenaje torácico
tunnelled drain: drenaje tunelizado
tunnelled drain removal: retirada de drenaje tunelizado
pericardial drainage: drenaje pericárdico
biopsy: biopsia
liver biopsy: biopsia hepática
kidney biopsy: biopsia renal
spleen biopsy: biopsia esplénica
pancreas biopsy: biopsia pancreática
adrenal biopsy: biopsia suprarrenal
lung biopsy: biopsia pulmonar
mediastinal biopsy: biopsia mediastínica
pleural biopsy: biopsia pleural
retroperitoneal biopsy: biopsia retroperitoneal
spine biopsy: biopsia vertebral
bone biopsy: biopsia ósea
bone marrow biopsy: biopsia de médula ósea
lymph node biopsy: biopsia de ganglio linfático
soft tissue biopsy: biopsia de partes blandas
breast biopsy: biopsia de mama
thyroid biopsy: biopsia tiroidea
prostate biopsy: biopsia prostática
transjugular liver biopsy: biopsia hepática transyugular
transjugular kidney biopsy: biopsia renal transyugular
localisation: localización
fiducial placement: colocación de marcadores fiduciales
ablation: ablación
liver ablation: ablación hepática
kidney ablation: ablación renal
lung ablation: ablación pulmonar
bone ablation: ablación ósea
soft tissue ablation: ablación de partes blandas
adrenal ablation: ablación suprarrenal
pancreas ablation: ablación pancreática
prostate ablation: ablación prostática
thyroid ablation: ablación tiroidea
ethanol ablation: ablación con etanol
brachytherapy: braquiterapia
vertebroplasty: vertebroplastia
kyphoplasty: cifoplastia
cementoplasty: cementoplastia
percutaneous screw fixation: fijación percutánea con tornillos
epidural injection: inyección epidural
nerve root block: bloqueo de raíz nerviosa
cervical facet joint injection: inyección facetaria cervical
facet joint injection: inyección facetaria
sacroiliac joint injection: inyección sacroilíaca
discography: discografía
joint injection: inyección articular
calcific tendinopathy lavage: lavado de tendinopatía calcificante
nerve block: bloqueo nervioso
coeliac plexus block: bloqueo del plexo celíaco
lumbar puncture: punción lumbar
`);
