import { names } from '../../language.js';

/** Arten von Medizinprodukten, mit Geschlecht; `~` ist die Endung eines Adjektivs. Aus dem Gedächtnis. */
export const closingDevices = names(`
nephroureteral stent: f Nephroureteralschiene
nephrostomy catheter: m Nephrostomiekatheter
locking nephrostomy catheter: m Nephrostomiekatheter mit Lockingsystem
balloon nephrostomy catheter: m Ballonnephrostomiekatheter
circle nephrostomy catheter: m Ringnephrostomiekatheter
re-entry nephrostomy catheter: m Reentry-Nephrostomiekatheter
suprapubic catheter: m suprapubisch~ Katheter
bladder catheter: m Blasenkatheter
drainage catheter: m Drainagekatheter
abscess drain: f Abszessdrainage
pigtail drain: f Pigtail-Drainage
locking drainage catheter: m Drainagekatheter mit Lockingsystem
sump drain: f Saugdrainage
straight drain: f gerad~ Drainage
biliary drainage catheter: m Gallengangsdrainagekatheter
internal-external biliary drainage catheter: f intern-extern~ Gallengangsdrainage
external biliary drainage catheter: f extern~ Gallengangsdrainage
locking biliary drainage catheter: m Gallengangsdrainagekatheter mit Lockingsystem
cholecystostomy catheter: m Cholezystostomiekatheter
locking cholecystostomy catheter: m Cholezystostomiekatheter mit Lockingsystem
nasobiliary drain: f nasobiliär~ Drainage
T-tube: f T-Drainage
pancreatic drain: f Pankreasdrainage
liver abscess drain: f Leberabszessdrainage
pelvic drain: f Beckendrainage
lymphocele drain: f Lymphozelendrainage
ascitic drain: f Aszitesdrainage
chest drain: f Thoraxdrainage
pericardial drain: f Perikarddrainage
mediastinal drain: f Mediastinaldrainage
tunnelled drain: f getunnelt~ Drainage
tunnelled pleural drain: f getunnelt~ Pleuradrainage
tunnelled peritoneal drain: f getunnelt~ Peritonealdrainage
peritoneovenous shunt: m peritoneovenös~ Shunt
lumbar drain: f Lumbaldrainage
thoracic duct drain: f Drainage des Ductus thoracicus
caecostomy tube: f Zökostomiesonde
gastrostomy tube: f Gastrostomiesonde
balloon gastrostomy tube: f Ballongastrostomiesonde
locking gastrostomy catheter: m Gastrostomiekatheter mit Lockingsystem
bumper gastrostomy tube: f Gastrostomiesonde mit Halteplatte
low-profile gastrostomy device: m Gastrostomie-Button
gastrojejunostomy tube: f Gastrojejunostomiesonde
jejunostomy tube: f Jejunostomiesonde
nasogastric tube: f Magensonde
nasojejunal tube: f nasojejunal~ Sonde
oesophagostomy tube: f Ösophagostomiesonde
rectal tube: n Darmrohr
caval filter: m Kavafilter
superior vena cava filter: m Filter der oberen Hohlvene
embolic protection filter: m Embolieschutzfilter
proximal protection device: n proximal~ Schutzsystem
coil: m Coil
detachable coil: m ablösbar~ Coil
pushable coil: m schiebbar~ Coil
microcoil: m Mikrocoil
hydrogel coil: m Hydrogelcoil
aneurysm coil: m Aneurysmacoil
vascular plug: m Gefäßplug
intrasaccular device: n intrasakkulär~ System
septal occluder: m Septumokkluder
detachable balloon: m ablösbar~ Ballon
particles: p Embolisationspartikel
microspheres: p Mikrosphären
drug-eluting beads: p medikamentenfreisetzend~ Mikrosphären
radioactive microspheres: p radioaktiv~ Mikrosphären
gelatin sponge: m Gelatineschwamm
liquid embolic: n flüssig~ Embolisat
embolic glue: m Gewebekleber
sclerosant: n Sklerosierungsmittel
thrombin: n Thrombin
autologous blood clot: n Eigenblutgerinnsel
closure device: n Verschlusssystem
suture-mediated closure device: n Nahtverschlusssystem
collagen plug closure device: n Kollagenverschlusssystem
clip closure device: n Clipverschlusssystem
patch closure device: n Hämostasepflaster
tract plug: m Verschlussstopfen für den Zugangsweg
compression device: n Kompressionssystem
marker: m Gewebemarker
localisation wire: m Markierungsdraht
magnetic seed: m Magnetmarker
gastropexy anchor: m Gastropexieanker
cement: m Knochenzement
snare: f Fangschlinge
three-loop snare: f dreifach~ Fangschlinge
retrieval cone: m Bergungskonus
retrieval hook: m Bergungshaken
retrieval set: n Bergungsset
forceps: f Zange
biopsy forceps: f Biopsiezange
laser sheath: f Laserschleuse
stone basket: m Steinfangkorb
lithotripter: m Lithotripter
cholangioscope: n Cholangioskop
thrombectomy device: n Thrombektomiesystem
stent retriever: m Stentretriever
ablation needle: f Ablationsnadel
radiofrequency electrode: f Radiofrequenzelektrode
microwave antenna: f Mikrowellenantenne
cryoprobe: f Kryosonde
electroporation electrode: f Elektroporationselektrode
laser ablation fibre: f Laserablationsfaser
ethanol injection needle: f Ethanolinjektionsnadel
thermocouple: n Thermoelement
hydrodissection needle: f Hydrodissektionsnadel
radiofrequency denervation needle: f Denervierungsnadel
bone screw: f Knochenschraube
vertebral implant: n Wirbelkörperimplantat
cavity creation device: n Instrument zur Hohlraumbildung
cement delivery system: n Zementapplikationssystem
calcific lavage needle: f Nadel zur Kalkspülung
arthrography needle: f Arthrographienadel
pusher: m Pusher
delivery system: n Einführsystem
stiffening cannula: f Versteifungskanüle
obturator: m Mandrin
tunneller: m Tunnelierer
swab: m Tupfer
connecting tube: m Verbindungsschlauch
stopcock: m Absperrhahn
haemostatic valve: n Hämostaseventil
drainage bag: m Drainagebeutel
vacuum bottle: f Vakuumflasche
one-way valve: n Rückschlagventil
inflation device: m Inflator
syringe: f Spritze
torque device: n Drehinstrument
wire insertion tool: f Drahteinführhilfe
scalpel: n Skalpell
skin fixation device: f Hautfixierung
dressing: m Verband
suture: f Naht
skin adhesive: m Hautkleber
disinfectant cap: f Desinfektionskappe
port needle: f Portnadel
ultrasound probe cover: m Überzug für die Ultraschallsonde
needle guide: f Nadelführung
grounding pad: f Neutralelektrode
contrast injector: m Kontrastmittelinjektor
carbon dioxide delivery system: n Kohlendioxid-Applikationssystem
blood return filter: m Blutrückgabefilter
external fixation clamp: f äußer~ Klemme
drape: n Abdecktuch
endotracheal tube: m Endotrachealtubus
`);
