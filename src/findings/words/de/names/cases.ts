import { names } from '../../language.js';

/** Arten von Eingriffen. Aus dem Gedächtnis. */
export const cases = names(`
angiography: Angiographie
limb artery angioplasty: Angioplastie einer Extremitätenarterie
limb artery stent: Stent einer Extremitätenarterie
peripheral arteriography: periphere Arteriographie
limb artery atherectomy: Atherektomie einer Extremitätenarterie
limb artery thrombectomy: Thrombektomie einer Extremitätenarterie
angioplasty: Angioplastie
iliac artery angioplasty: Angioplastie der Beckenarterie
iliac artery stent: Stent der Beckenarterie
renal artery angioplasty: Angioplastie der Nierenarterie
renal artery stent: Stent der Nierenarterie
renal denervation: renale Denervation
mesenteric artery angioplasty: Angioplastie der Mesenterialarterie
mesenteric artery stent: Stent der Mesenterialarterie
mesenteric artery thrombectomy: Thrombektomie der Mesenterialarterie
aortic aneurysm repair: endovaskuläre Versorgung eines Aortenaneurysmas
thoracic aortic repair: endovaskuläre Versorgung der thorakalen Aorta
aortic occlusion balloon: Ballonokklusion der Aorta
subclavian artery angioplasty: Angioplastie der A. subclavia
pseudoaneurysm treatment: Behandlung eines Pseudoaneurysmas
foreign body retrieval: Fremdkörperbergung
thrombolysis: Thrombolyse
pulmonary embolism treatment: Behandlung einer Lungenembolie
pulmonary artery thrombectomy: Thrombektomie der Pulmonalarterie
pulmonary angiography: Pulmonalisangiographie
carotid artery stent: Stent der A. carotis
cerebral angiography: zerebrale Angiographie
stroke thrombectomy: Thrombektomie bei Schlaganfall
intracranial aneurysm coiling: Coiling eines intrakraniellen Aneurysmas
flow diversion: Implantation eines Flussumlenkers
brain arteriovenous malformation embolisation: Embolisation einer zerebralen arteriovenösen Malformation
middle meningeal artery embolisation: Embolisation der A. meningea media
intracranial stent: intrakranieller Stent
epistaxis embolisation: Embolisation bei Epistaxis
petrosal sinus sampling: Blutentnahme aus den Sinus petrosi
venous sinus stent: Stent eines Hirnsinus
embolisation: Embolisation
gastrointestinal bleeding embolisation: Embolisation bei gastrointestinaler Blutung
uterine artery embolisation: Embolisation der A. uterina
prostate artery embolisation: Embolisation der Prostataarterien
pelvic embolisation: Embolisation im Becken
bronchial artery embolisation: Embolisation der Bronchialarterien
splenic artery embolisation: Embolisation der Milzarterie
renal artery embolisation: Embolisation der Nierenarterie
hepatic artery embolisation: Embolisation der Leberarterie
visceral aneurysm embolisation: Embolisation eines Viszeralarterienaneurysmas
chemoembolisation: Chemoembolisation
radioembolisation: Radioembolisation
radioembolisation work-up: Evaluation vor Radioembolisation
genicular artery embolisation: Embolisation der Kniearterien
haemorrhoid embolisation: Hämorrhoidenembolisation
bariatric embolisation: bariatrische Embolisation
endoleak embolisation: Endoleak-Embolisation
arteriovenous malformation embolisation: Embolisation einer arteriovenösen Malformation
pulmonary arteriovenous malformation embolisation: Embolisation einer pulmonalen arteriovenösen Malformation
bone metastasis embolisation: Embolisation einer Knochenmetastase
thyroid artery embolisation: Embolisation der Schilddrüsenarterien
varicocele embolisation: Varikozelenembolisation
pelvic vein embolisation: Embolisation der Beckenvenen
variceal embolisation: Varizenembolisation
portal vein embolisation: Pfortaderembolisation
liver venous deprivation: venöse Leberdeprivation
portal vein recanalisation: Pfortaderrekanalisation
transjugular portosystemic shunt: transjugulärer intrahepatischer portosystemischer Shunt (TIPS)
portosystemic shunt revision: Revision des portosystemischen Shunts
hepatic venous pressure measurement: Lebervenendruckmessung
hepatic vein angioplasty: Angioplastie der Lebervene
caval filter insertion: Kavafilter-Implantation
caval filter retrieval: Kavafilter-Bergung
complex caval filter retrieval: komplexe Kavafilter-Bergung
venography: Phlebographie
iliac vein stent: Stent der Beckenvene
deep vein thrombectomy: Thrombektomie tiefer Venen
superior vena cava stent: Stent der oberen Hohlvene
central vein angioplasty: Angioplastie einer zentralen Vene
endovenous ablation: endovenöse Ablation
vein sclerotherapy: Venensklerosierung
adrenal vein sampling: Nebennierenvenenkatheter zur Blutentnahme
renal vein sampling: Nierenvenenblutentnahme
dialysis circuit angioplasty: Angioplastie des Dialysezugangs
dialysis circuit thrombectomy: Thrombektomie des Dialysezugangs
dialysis circuit stent: Stent im Dialysezugang
fistulography: Shuntangiographie
dialysis fistula creation: Anlage einer Dialysefistel
dialysis circuit embolisation: Embolisation am Dialysezugang
central venous access: zentralvenöser Zugang
tunnelled catheter insertion: Anlage eines getunnelten Katheters
dialysis catheter insertion: Anlage eines Dialysekatheters
dialysis catheter exchange: Wechsel eines Dialysekatheters
venous port: Portimplantation
port removal: Portentfernung
port check: Portkontrolle
peripherally inserted central catheter insertion: PICC-Anlage
tunnelled catheter removal: Entfernung eines getunnelten Katheters
peritoneal dialysis catheter insertion: Anlage eines Peritonealdialysekatheters
hepatic arterial port insertion: Anlage eines Leberarterienports
isolated liver perfusion: isolierte Leberperfusion
lymphangiography: Lymphographie
thoracic duct embolisation: Embolisation des Ductus thoracicus
lymphocele sclerotherapy: Lymphozelensklerosierung
lymphatic malformation sclerotherapy: Sklerosierung einer lymphatischen Malformation
venous malformation sclerotherapy: Sklerosierung einer venösen Malformation
nephrostomy: Nephrostomie
nephrostomy exchange: Nephrostomiewechsel
nephrostomy removal: Nephrostomieentfernung
nephrostogram: antegrade Pyelographie über die Nephrostomie
nephrolithotomy access: Zugang zur Nephrolithotomie
ureteric stent: Harnleiterschiene
ureteric stent exchange: Wechsel einer Harnleiterschiene
ureteric stent removal: Entfernung einer Harnleiterschiene
ureteric dilatation: Harnleiterdilatation
ureteric occlusion: Harnleiterokklusion
suprapubic catheter insertion: Anlage eines suprapubischen Katheters
suprapubic catheter exchange: Wechsel eines suprapubischen Katheters
renal cyst drainage: Nierenzystendrainage
fallopian tube recanalisation: Tubenrekanalisation
biliary drainage: Gallengangsdrainage
cholangiography: Cholangiographie
biliary drain exchange: Wechsel einer Gallengangsdrainage
biliary drain removal: Entfernung einer Gallengangsdrainage
tube cholangiography: Cholangiographie über die Drainage
biliary stent: Gallengangsstent
biliary dilatation: Gallengangsdilatation
biliary stone removal: Gallengangssteinextraktion
biliary biopsy: Gallengangsbiopsie
biliary ablation: Gallengangsablation
cholangioscopy: Cholangioskopie
cholecystostomy: Cholezystostomie
gallbladder ablation: Gallenblasenablation
gastrostomy: Gastrostomie
gastrojejunostomy: Gastrojejunostomie
jejunostomy: Jejunostomie
caecostomy: Zökostomie
gastrostomy exchange: Gastrostomiewechsel
gastrostomy removal: Gastrostomieentfernung
gastrostomy check: Gastrostomiekontrolle
nasojejunal tube insertion: Anlage einer nasojejunalen Sonde
oesophageal stent: Ösophagusstent
oesophageal dilatation: Ösophagusdilatation
duodenal stent: Duodenalstent
colonic stent: Kolonstent
gastrointestinal dilatation: gastrointestinale Dilatation
intussusception reduction: Invaginationsreposition
tracheobronchial stent: tracheobronchialer Stent
lacrimal dilatation: Tränenwegsdilatation
sialography: Sialographie
abscess drainage: Abszessdrainage
pancreatic collection drainage: Drainage einer pankreatischen Flüssigkeitsansammlung
superficial abscess drainage: Drainage eines oberflächlichen Abszesses
lymphocele drainage: Lymphozelendrainage
liver cyst sclerotherapy: Leberzystensklerosierung
abscess drain exchange: Wechsel einer Abszessdrainage
drain removal: Entfernung einer Drainage
drain check: Drainagekontrolle
paracentesis: Parazentese
thoracentesis: Thorakozentese
chest drain insertion: Anlage einer Thoraxdrainage
tunnelled drain: getunnelte Drainage
tunnelled drain removal: Entfernung einer getunnelten Drainage
pericardial drainage: Perikarddrainage
biopsy: Biopsie
liver biopsy: Leberbiopsie
kidney biopsy: Nierenbiopsie
spleen biopsy: Milzbiopsie
pancreas biopsy: Pankreasbiopsie
adrenal biopsy: Nebennierenbiopsie
lung biopsy: Lungenbiopsie
mediastinal biopsy: Mediastinalbiopsie
pleural biopsy: Pleurabiopsie
retroperitoneal biopsy: retroperitoneale Biopsie
spine biopsy: Wirbelsäulenbiopsie
bone biopsy: Knochenbiopsie
bone marrow biopsy: Knochenmarkbiopsie
lymph node biopsy: Lymphknotenbiopsie
soft tissue biopsy: Weichteilbiopsie
breast biopsy: Brustbiopsie
thyroid biopsy: Schilddrüsenbiopsie
prostate biopsy: Prostatabiopsie
transjugular liver biopsy: transjuguläre Leberbiopsie
transjugular kidney biopsy: transjuguläre Nierenbiopsie
localisation: Markierung
fiducial placement: Markereinlage
ablation: Ablation
liver ablation: Leberablation
kidney ablation: Nierenablation
lung ablation: Lungenablation
bone ablation: Knochenablation
soft tissue ablation: Weichteilablation
adrenal ablation: Nebennierenablation
pancreas ablation: Pankreasablation
prostate ablation: Prostataablation
thyroid ablation: Schilddrüsenablation
ethanol ablation: Ethanolablation
brachytherapy: Brachytherapie
vertebroplasty: Vertebroplastie
kyphoplasty: Kyphoplastie
cementoplasty: Zementoplastie
percutaneous screw fixation: perkutane Verschraubung
epidural injection: epidurale Injektion
nerve root block: Nervenwurzelblockade
cervical facet joint injection: Injektion in ein zervikales Facettengelenk
facet joint injection: Facettengelenkinjektion
sacroiliac joint injection: Injektion in das Iliosakralgelenk
discography: Diskographie
joint injection: Gelenkinjektion
calcific tendinopathy lavage: Kalkspülung bei Tendinopathie
nerve block: Nervenblockade
coeliac plexus block: Blockade des Plexus coeliacus
lumbar puncture: Lumbalpunktion
`);
