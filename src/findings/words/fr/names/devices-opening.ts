import { names } from '../../language.js';

/** Types de dispositifs, avec leur genre. De mémoire. */
export const openingDevices = names(`
access needle: f aiguille de ponction
fine access needle: f aiguille fine de ponction
thin-wall needle: f aiguille à paroi mince
sheathed needle: f aiguille gainée
coaxial needle: f aiguille coaxiale
biopsy needle: f aiguille de biopsie
aspiration needle: f aiguille d’aspiration
vacuum biopsy needle: f aiguille de biopsie assistée par le vide
bone biopsy needle: f aiguille de biopsie osseuse
transjugular needle: f aiguille transjugulaire
transhepatic needle: f aiguille transhépatique
transjugular biopsy needle: f aiguille de biopsie transjugulaire
transseptal needle: f aiguille transseptale
localisation needle: f aiguille de repérage
spinal needle: f aiguille spinale
epidural needle: f aiguille péridurale
nerve block needle: f aiguille de bloc nerveux
sclerotherapy needle: f aiguille de sclérothérapie
vertebroplasty needle: f aiguille de vertébroplastie
aspiration cannula: f canule d’aspiration
suture needle: f aiguille de suture
guidewire: m guide
stiff guidewire: m guide rigide
hydrophilic guidewire: m guide hydrophile
stiff hydrophilic guidewire: m guide hydrophile rigide
exchange guidewire: m guide d’échange
safety guidewire: m guide de sécurité
microwire: m microguide
access wire: m guide d’accès
pressure wire: m guide de pression
recanalisation wire: m guide de recanalisation
extension wire: m guide d’extension
snare wire: m guide-lasso
introducer sheath: f gaine d’introduction
micro-access set: m kit de microponction
coaxial introducer set: m kit d’introduction coaxial
long sheath: f gaine longue
transjugular sheath: f gaine transjugulaire
radial sheath: f gaine radiale
retrieval sheath: f gaine de récupération
large-bore sheath: f gaine de gros calibre
peel-away sheath: f gaine pelable
working sheath: f gaine de travail
ureteral access sheath: f gaine d’accès urétéral
dilator: m dilatateur
telescopic dilator: m dilatateur télescopique
catheter: m cathéter
diagnostic catheter: m cathéter diagnostique
flush catheter: m cathéter d’aortographie
cobra catheter: m cathéter sélectif préformé
guiding catheter: m cathéter guide
balloon guiding catheter: m cathéter guide à ballonnet
distal access catheter: m cathéter d’accès distal
microcatheter: m microcathéter
balloon microcatheter: m microcathéter à ballonnet
anti-reflux microcatheter: m microcathéter antireflux
support catheter: m cathéter de support
re-entry catheter: m cathéter de réentrée
measuring catheter: m cathéter de mesure
infusion catheter: m cathéter de perfusion
ultrasound-assisted infusion catheter: m cathéter de perfusion assistée par ultrasons
aspiration catheter: m cathéter d’aspiration
rheolytic thrombectomy catheter: m cathéter de thrombectomie rhéolytique
atherectomy catheter: m cathéter d’athérectomie
intravascular ultrasound catheter: m cathéter d’échographie endovasculaire
intracardiac echocardiography catheter: m cathéter d’échocardiographie intracardiaque
pressure catheter: m cathéter de pression
sampling catheter: m cathéter de prélèvement
biliary manipulation catheter: m cathéter biliaire de manipulation
ureteric catheter: m cathéter urétéral
hysterosalpingography catheter: m cathéter d’hystérosalpingographie
lymphatic catheter: m cathéter lymphatique
endovenous laser fibre: f fibre laser endoveineuse
endovenous radiofrequency catheter: m cathéter endoveineux de radiofréquence
radiofrequency denervation catheter: m cathéter de dénervation par radiofréquence
epidural catheter: m cathéter péridural
central venous catheter: m cathéter veineux central
tunnelled central venous catheter: m cathéter veineux central tunnellisé
dialysis catheter: m cathéter de dialyse
tunnelled dialysis catheter: m cathéter de dialyse tunnellisé
non-tunnelled dialysis catheter: m cathéter de dialyse non tunnellisé
apheresis catheter: m cathéter d’aphérèse
umbilical venous catheter: m cathéter veineux ombilical
peripherally inserted central catheter: m cathéter central à insertion périphérique (PICC)
midline catheter: m cathéter midline
peripheral venous cannula: m cathéter veineux périphérique
arterial line: f ligne artérielle
venous port: f chambre implantable veineuse
arterial port: f chambre implantable artérielle
peritoneal port: f chambre implantable péritonéale
peritoneal dialysis catheter: m cathéter de dialyse péritonéale
intrathecal catheter: m cathéter intrathécal
balloon catheter: m cathéter à ballonnet
angioplasty balloon: m ballonnet d’angioplastie
high-pressure balloon: m ballonnet haute pression
rapid exchange balloon: m ballonnet à échange rapide
drug-coated balloon catheter: m cathéter à ballonnet enduit de médicament
cutting balloon catheter: m cathéter à ballonnet coupant
scoring balloon catheter: m cathéter à ballonnet scarificateur
lithotripsy balloon: m ballonnet de lithotripsie
occlusion balloon catheter: m cathéter à ballonnet d’occlusion
moulding balloon: m ballonnet de modelage
sizing balloon: m ballonnet de mesure
tract dilation balloon: m ballonnet de dilatation du trajet
biliary balloon: m ballonnet biliaire
ureteric balloon: m ballonnet urétéral
oesophageal balloon: m ballonnet œsophagien
stone extraction balloon: m ballonnet d’extraction de calculs
vertebral balloon: m ballonnet vertébral
valvuloplasty balloon: m ballonnet de valvuloplastie
stent: m stent
self-expanding stent: m stent auto-expansible
balloon-expandable stent: m stent expansible par ballonnet
bare metal stent: m stent métallique nu
arterial stent: m stent artériel
venous stent: m stent veineux
carotid stent: m stent carotidien
intracranial stent: m stent intracrânien
flow diverter: m diverteur de flux
covered stent: m stent couvert
aortic stent graft: f endoprothèse aortique
portosystemic shunt stent: m stent pour shunt portosystémique
drug-eluting stent: m stent à élution de médicament
bioresorbable stent: m stent biorésorbable
ureteric stent: f sonde urétérale interne
double-J stent: f sonde double J
metal ureteric stent: f endoprothèse urétérale métallique
tumour ureteric stent: f sonde urétérale tumorale
biliary stent: m stent biliaire
plastic biliary stent: m stent biliaire en plastique
metal biliary stent: m stent biliaire métallique
covered biliary stent: m stent biliaire couvert
biodegradable biliary stent: m stent biliaire biodégradable
enteral stent: m stent digestif
oesophageal stent: m stent œsophagien
duodenal stent: m stent duodénal
colonic stent: m stent colique
airway stent: m stent trachéobronchique
urethral stent: m stent urétral
lacrimal stent: m stent lacrymal
`);
