import { names } from '../../language.js';

/** Arten von Medizinprodukten, mit Geschlecht; `~` ist die Endung eines Adjektivs. Aus dem Gedächtnis. */
export const openingDevices = names(`
access needle: f Punktionsnadel
fine access needle: f Feinpunktionsnadel
thin-wall needle: f Dünnwandnadel
sheathed needle: f Punktionskanüle mit Kunststoffhülle
coaxial needle: f Koaxialnadel
biopsy needle: f Biopsienadel
aspiration needle: f Aspirationsnadel
vacuum biopsy needle: f Vakuumbiopsienadel
bone biopsy needle: f Knochenbiopsienadel
transjugular needle: f transjugulär~ Nadel
transhepatic needle: f transhepatisch~ Nadel
transjugular biopsy needle: f transjugulär~ Biopsienadel
transseptal needle: f transseptal~ Nadel
localisation needle: f Markierungsnadel
spinal needle: f Spinalnadel
epidural needle: f Periduralnadel
nerve block needle: f Nervenblockadenadel
sclerotherapy needle: f Sklerosierungsnadel
vertebroplasty needle: f Vertebroplastienadel
aspiration cannula: f Aspirationskanüle
suture needle: f Nahtnadel
guidewire: m Führungsdraht
stiff guidewire: m steif~ Führungsdraht
hydrophilic guidewire: m hydrophil~ Führungsdraht
stiff hydrophilic guidewire: m steif~ hydrophil~ Führungsdraht
exchange guidewire: m Austauschdraht
safety guidewire: m Sicherheitsdraht
microwire: m Mikrodraht
access wire: m Zugangsdraht
pressure wire: m Druckmessdraht
recanalisation wire: m Rekanalisationsdraht
extension wire: m Verlängerungsdraht
snare wire: m Schlingendraht
introducer sheath: f Einführschleuse
micro-access set: n Mikropunktionsset
coaxial introducer set: n koaxial~ Einführset
long sheath: f lang~ Schleuse
transjugular sheath: f transjugulär~ Schleuse
radial sheath: f Radialisschleuse
retrieval sheath: f Bergungsschleuse
large-bore sheath: f großlumig~ Schleuse
peel-away sheath: f Peel-away-Schleuse
working sheath: f Arbeitsschleuse
ureteral access sheath: f Harnleiterschleuse
dilator: m Dilatator
telescopic dilator: m Teleskopdilatator
catheter: m Katheter
diagnostic catheter: m Diagnostikkatheter
flush catheter: m Spülkatheter
cobra catheter: m vorgeformt~ Selektivkatheter
guiding catheter: m Führungskatheter
balloon guiding catheter: m Ballonführungskatheter
distal access catheter: m distal~ Zugangskatheter
microcatheter: m Mikrokatheter
balloon microcatheter: m Ballonmikrokatheter
anti-reflux microcatheter: m Antireflux-Mikrokatheter
support catheter: m Stützkatheter
re-entry catheter: m Reentry-Katheter
measuring catheter: m Messkatheter
infusion catheter: m Infusionskatheter
ultrasound-assisted infusion catheter: m ultraschallgestützt~ Infusionskatheter
aspiration catheter: m Aspirationskatheter
rheolytic thrombectomy catheter: m rheolytisch~ Thrombektomiekatheter
atherectomy catheter: m Atherektomiekatheter
intravascular ultrasound catheter: m intravaskulär~ Ultraschallkatheter
intracardiac echocardiography catheter: m intrakardial~ Echokardiographiekatheter
pressure catheter: m Druckmesskatheter
sampling catheter: m Entnahmekatheter
biliary manipulation catheter: m Gallengangskatheter
ureteric catheter: m Harnleiterkatheter
hysterosalpingography catheter: m Hysterosalpingographiekatheter
lymphatic catheter: m Lymphgefäßkatheter
endovenous laser fibre: f endovenös~ Laserfaser
endovenous radiofrequency catheter: m endovenös~ Radiofrequenzkatheter
radiofrequency denervation catheter: m Radiofrequenz-Denervationskatheter
epidural catheter: m Periduralkatheter
central venous catheter: m zentral~ Venenkatheter
tunnelled central venous catheter: m getunnelt~ zentral~ Venenkatheter
dialysis catheter: m Dialysekatheter
tunnelled dialysis catheter: m getunnelt~ Dialysekatheter
non-tunnelled dialysis catheter: m nicht getunnelt~ Dialysekatheter
apheresis catheter: m Apheresekatheter
umbilical venous catheter: m Nabelvenenkatheter
peripherally inserted central catheter: m peripher eingeführt~ zentral~ Venenkatheter (PICC)
midline catheter: m Midline-Katheter
peripheral venous cannula: f peripher~ Venenverweilkanüle
arterial line: f arteriell~ Kanüle
venous port: n venös~ Portsystem
arterial port: n arteriell~ Portsystem
peritoneal port: n peritoneal~ Portsystem
peritoneal dialysis catheter: m Peritonealdialysekatheter
intrathecal catheter: m intrathekal~ Katheter
balloon catheter: m Ballonkatheter
angioplasty balloon: m Angioplastieballon
high-pressure balloon: m Hochdruckballon
rapid exchange balloon: m Rapid-Exchange-Ballon
drug-coated balloon catheter: m medikamentenbeschichtet~ Ballonkatheter
cutting balloon catheter: m Schneidballonkatheter
scoring balloon catheter: m Scoring-Ballonkatheter
lithotripsy balloon: m Lithotripsieballon
occlusion balloon catheter: m Okklusionsballonkatheter
moulding balloon: m Modellierballon
sizing balloon: m Messballon
tract dilation balloon: m Ballon zur Dilatation des Zugangswegs
biliary balloon: m Gallengangsballon
ureteric balloon: m Harnleiterballon
oesophageal balloon: m Ösophagusballon
stone extraction balloon: m Steinextraktionsballon
vertebral balloon: m Wirbelkörperballon
valvuloplasty balloon: m Valvuloplastieballon
stent: m Stent
self-expanding stent: m selbstexpandierend~ Stent
balloon-expandable stent: m ballonexpandierbar~ Stent
bare metal stent: m unbeschichtet~ Metallstent
arterial stent: m arteriell~ Stent
venous stent: m venös~ Stent
carotid stent: m Karotisstent
intracranial stent: m intrakraniell~ Stent
flow diverter: m Flussumlenker
covered stent: m gecovert~ Stent
aortic stent graft: f Aortenstentprothese
portosystemic shunt stent: m Stent für den portosystemischen Shunt
drug-eluting stent: m medikamentenfreisetzend~ Stent
bioresorbable stent: m bioresorbierbar~ Stent
ureteric stent: f Harnleiterschiene
double-J stent: f Doppel-J-Schiene
metal ureteric stent: f Harnleiterschiene aus Metall
tumour ureteric stent: f Tumor-Harnleiterschiene
biliary stent: m Gallengangsstent
plastic biliary stent: m Gallengangsstent aus Kunststoff
metal biliary stent: m Gallengangsstent aus Metall
covered biliary stent: m gecovert~ Gallengangsstent
biodegradable biliary stent: m biologisch abbaubar~ Gallengangsstent
enteral stent: m enteral~ Stent
oesophageal stent: m Ösophagusstent
duodenal stent: m Duodenalstent
colonic stent: m Kolonstent
airway stent: m Atemwegsstent
urethral stent: m Harnröhrenstent
lacrimal stent: m Tränenwegsstent
`);
