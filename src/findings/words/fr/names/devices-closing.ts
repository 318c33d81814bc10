import { names } from '../../language.js';

/** Types de dispositifs, avec leur genre. De mémoire. */
export const closingDevices = names(`
nephroureteral stent: f sonde néphro-urétérale
nephrostomy catheter: f sonde de néphrostomie
locking nephrostomy catheter: f sonde de néphrostomie à verrouillage
balloon nephrostomy catheter: f sonde de néphrostomie à ballonnet
circle nephrostomy catheter: f sonde de néphrostomie circulaire
re-entry nephrostomy catheter: f sonde de néphrostomie de réentrée
suprapubic catheter: f sonde sus-pubienne
bladder catheter: f sonde vésicale
drainage catheter: m cathéter de drainage
abscess drain: m drain d’abcès
pigtail drain: m drain en queue de cochon
locking drainage catheter: m cathéter de drainage à verrouillage
sump drain: m drain aspiratif
straight drain: m drain droit
biliary drainage catheter: m cathéter de drainage biliaire
internal-external biliary drainage catheter: m drain biliaire interne-externe
external biliary drainage catheter: m drain biliaire externe
locking biliary drainage catheter: m cathéter de drainage biliaire à verrouillage
cholecystostomy catheter: m cathéter de cholécystostomie
locking cholecystostomy catheter: m cathéter de cholécystostomie à verrouillage
nasobiliary drain: m drain nasobiliaire
T-tube: m drain en T
pancreatic drain: m drain pancréatique
liver abscess drain: m drain d’abcès hépatique
pelvic drain: m drain pelvien
lymphocele drain: m drain de lymphocèle
ascitic drain: m drain d’ascite
chest drain: m drain thoracique
pericardial drain: m drain péricardique
mediastinal drain: m drain médiastinal
tunnelled drain: m drain tunnellisé
tunnelled pleural drain: m drain pleural tunnellisé
tunnelled peritoneal drain: m drain péritonéal tunnellisé
peritoneovenous shunt: m shunt péritonéo-veineux
lumbar drain: m drain lombaire
thoracic duct drain: m drain du canal thoracique
caecostomy tube: f sonde de cæcostomie
gastrostomy tube: f sonde de gastrostomie
balloon gastrostomy tube: f sonde de gastrostomie à ballonnet
locking gastrostomy catheter: f sonde de gastrostomie à verrouillage
bumper gastrostomy tube: f sonde de gastrostomie à collerette
low-profile gastrostomy device: m bouton de gastrostomie
gastrojejunostomy tube: f sonde de gastrojéjunostomie
jejunostomy tube: f sonde de jéjunostomie
nasogastric tube: f sonde nasogastrique
nasojejunal tube: f sonde nasojéjunale
oesophagostomy tube: f sonde d’œsophagostomie
rectal tube: f sonde rectale
caval filter: m filtre cave
superior vena cava filter: m filtre de la veine cave supérieure
embolic protection filter: m filtre de protection embolique
proximal protection device: m dispositif de protection proximale
coil: m coil
detachable coil: m coil détachable
pushable coil: m coil poussable
microcoil: m microcoil
hydrogel coil: m coil d’hydrogel
aneurysm coil: m coil pour anévrisme
vascular plug: m bouchon vasculaire
intrasaccular device: m dispositif intrasacculaire
septal occluder: m occluseur septal
detachable balloon: m ballonnet largable
particles: p particules d’embolisation
microspheres: p microsphères
drug-eluting beads: p microsphères à élution de médicament
radioactive microspheres: p microsphères radioactives
gelatin sponge: f éponge de gélatine
liquid embolic: m agent embolique liquide
embolic glue: f colle d’embolisation
sclerosant: m agent sclérosant
thrombin: f thrombine
autologous blood clot: m caillot autologue
closure device: m dispositif de fermeture
suture-mediated closure device: m dispositif de fermeture par suture
collagen plug closure device: m dispositif de fermeture par bouchon de collagène
clip closure device: m dispositif de fermeture par clip
patch closure device: m pansement hémostatique
tract plug: m bouchon du trajet
compression device: m dispositif de compression
marker: m marqueur
localisation wire: m fil de repérage
magnetic seed: m grain magnétique
gastropexy anchor: f ancre de gastropexie
cement: m ciment osseux
snare: m lasso
three-loop snare: m lasso à trois boucles
retrieval cone: m cône de récupération
retrieval hook: m crochet de récupération
retrieval set: m kit de récupération
forceps: f pince
biopsy forceps: f pince à biopsie
laser sheath: f gaine laser
stone basket: m panier à calculs
lithotripter: m lithotripteur
cholangioscope: m cholangioscope
thrombectomy device: m dispositif de thrombectomie
stent retriever: m stent de thrombectomie
ablation needle: f aiguille d’ablation
radiofrequency electrode: f électrode de radiofréquence
microwave antenna: f antenne micro-ondes
cryoprobe: f cryosonde
electroporation electrode: f électrode d’électroporation
laser ablation fibre: f fibre laser d’ablation
ethanol injection needle: f aiguille d’alcoolisation
thermocouple: m thermocouple
hydrodissection needle: f aiguille d’hydrodissection
radiofrequency denervation needle: f aiguille de dénervation par radiofréquence
bone screw: f vis osseuse
vertebral implant: m implant vertébral
cavity creation device: m instrument de création de cavité
cement delivery system: m système d’injection de ciment
calcific lavage needle: f aiguille de ponction-lavage
arthrography needle: f aiguille d’arthrographie
pusher: m poussoir
delivery system: m système de largage
stiffening cannula: f canule rigidifiante
obturator: m mandrin
tunneller: m tunnellisateur
swab: f compresse
connecting tube: f tubulure de raccordement
stopcock: m robinet
haemostatic valve: f valve hémostatique
drainage bag: f poche de drainage
vacuum bottle: m flacon sous vide
one-way valve: f valve antiretour
inflation device: m gonfleur
syringe: f seringue
torque device: m torqueur
wire insertion tool: m introducteur de guide
scalpel: m scalpel
skin fixation device: m dispositif de fixation cutanée
dressing: m pansement
suture: f suture
skin adhesive: f colle cutanée
disinfectant cap: m bouchon désinfectant
port needle: f aiguille pour chambre implantable
ultrasound probe cover: f housse de sonde d’échographie
needle guide: m guide d’aiguille
grounding pad: f électrode neutre
contrast injector: m injecteur de contraste
carbon dioxide delivery system: m système d’injection de dioxyde de carbone
blood return filter: m filtre de retour sanguin
external fixation clamp: f pince externe
drape: m champ stérile
endotracheal tube: f sonde d’intubation trachéale
`);
