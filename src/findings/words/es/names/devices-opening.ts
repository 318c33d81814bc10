import { names } from '../../language.js';

/** Clases de productos, con su género. De memoria. */
export const openingDevices = names(`
access needle: f aguja de punción
fine access needle: f aguja fina de punción
thin-wall needle: f aguja de pared fina
sheathed needle: f aguja con vaina
coaxial needle: f aguja coaxial
biopsy needle: f aguja de biopsia
aspiration needle: f aguja de aspiración
vacuum biopsy needle: f aguja de biopsia por vacío
bone biopsy needle: f aguja de biopsia ósea
transjugular needle: f aguja transyugular
transhepatic needle: f aguja transhepática
transjugular biopsy needle: f aguja de biopsia transyugular
transseptal needle: f aguja transeptal
localisation needle: f aguja de localización
spinal needle: f aguja espinal
epidural needle: f aguja epidural
nerve block needle: f aguja de bloqueo nervioso
sclerotherapy needle: f aguja de escleroterapia
vertebroplasty needle: f aguja de vertebroplastia
aspiration cannula: f cánula de aspiración
suture needle: f aguja de sutura
guidewire: f guía
stiff guidewire: f guía rígida
hydrophilic guidewire: f guía hidrófila
stiff hydrophilic guidewire: f guía hidrófila rígida
exchange guidewire: f guía de intercambio
safety guidewire: f guía de seguridad
microwire: f microguía
access wire: f guía de acceso
pressure wire: f guía de presión
recanalisation wire: f guía de recanalización
extension wire: f guía de extensión
snare wire: f guía de lazo
introducer sheath: m introductor
micro-access set: m set de micropunción
coaxial introducer set: m set introductor coaxial
long sheath: m introductor largo
transjugular sheath: m introductor transyugular
radial sheath: m introductor radial
retrieval sheath: m introductor de recuperación
large-bore sheath: m introductor de gran calibre
peel-away sheath: m introductor pelable
working sheath: m introductor de trabajo
ureteral access sheath: f vaina de acceso ureteral
dilator: m dilatador
telescopic dilator: m dilatador telescópico
catheter: m catéter
diagnostic catheter: m catéter diagnóstico
flush catheter: m catéter de lavado
cobra catheter: m catéter selectivo preformado
guiding catheter: m catéter guía
balloon guiding catheter: m catéter guía con balón
distal access catheter: m catéter de acceso distal
microcatheter: m microcatéter
balloon microcatheter: m microcatéter con balón
anti-reflux microcatheter: m microcatéter antirreflujo
support catheter: m catéter de soporte
re-entry catheter: m catéter de reentrada
measuring catheter: m catéter de medición
infusion catheter: m catéter de infusión
ultrasound-assisted infusion catheter: m catéter de infusión asistida por ultrasonido
aspiration catheter: m catéter de aspiración
rheolytic thrombectomy catheter: m catéter de trombectomía reolítica
atherectomy catheter: m catéter de aterectomía
intravascular ultrasound catheter: m catéter de ecografía intravascular
intracardiac echocardiography catheter: m catéter de ecocardiografía intracardíaca
pressure catheter: m catéter de presión
sampling catheter: m catéter de muestreo
biliary manipulation catheter: m catéter biliar de manipulación
ureteric catheter: m catéter ureteral
hysterosalpingography catheter: m catéter de histerosalpingografía
lymphatic catheter: m catéter linfático
endovenous laser fibre: f fibra láser endovenosa
endovenous radiofrequency catheter: m catéter endovenoso de radiofrecuencia
radiofrequency denervation catheter: m catéter de denervación por radiofrecuencia
epidural catheter: m catéter epidural
central venous catheter: m catéter venoso central
tunnelled central venous catheter: m catéter venoso central tunelizado
dialysis catheter: m catéter de diálisis
tunnelled dialysis catheter: m catéter de diálisis tunelizado
non-tunnelled dialysis catheter: m catéter de diálisis no tunelizado
apheresis catheter: m catéter de aféresis
umbilical venous catheter: m catéter venoso umbilical
peripherally inserted central catheter: m catéter central de inserción periférica (PICC)
midline catheter: m catéter de línea media
peripheral venous cannula: f cánula venosa periférica
arterial line: f línea arterial
venous port: m reservorio venoso
arterial port: m reservorio arterial
peritoneal port: m reservorio peritoneal
peritoneal dialysis catheter: m catéter de diálisis peritoneal
intrathecal catheter: m catéter intratecal
balloon catheter: m catéter balón
angioplasty balloon: m balón de angioplastia
high-pressure balloon: m balón de alta presión
rapid exchange balloon: m balón de intercambio rápido
drug-coated balloon catheter: m catéter balón recubierto de fármaco
cutting balloon catheter: m catéter balón de corte
scoring balloon catheter: m catéter balón de incisión
lithotripsy balloon: m balón de litotricia
occlusion balloon catheter: m catéter balón de oclusión
moulding balloon: m balón de moldeado
sizing balloon: m balón de medición
tract dilation balloon: m balón de dilatación del trayecto
biliary balloon: m balón biliar
ureteric balloon: m balón ureteral
oesophageal balloon: m balón esofágico
stone extraction balloon: m balón de extracción de cálculos
vertebral balloon: m balón vertebral
valvuloplasty balloon: m balón de valvuloplastia
stent: m stent
self-expanding stent: m stent autoexpandible
balloon-expandable stent: m stent expandible con balón
bare metal stent: m stent metálico no recubierto
arterial stent: m stent arterial
venous stent: m stent venoso
carotid stent: m stent carotídeo
intracranial stent: m stent intracraneal
flow diverter: m desviador de flujo
covered stent: m stent cubierto
aortic stent graft: f endoprótesis aórtica
portosystemic shunt stent: m stent para derivación portosistémica
drug-eluting stent: m stent liberador de fármaco
bioresorbable stent: m stent biorreabsorbible
ureteric stent: m catéter doble J ureteral
double-J stent: m catéter doble J
metal ureteric stent: m stent ureteral metálico
tumour ureteric stent: m stent ureteral tumoral
biliary stent: m stent biliar
plastic biliary stent: m stent biliar de plástico
metal biliary stent: m stent biliar metálico
covered biliary stent: m stent biliar cubierto
biodegradable biliary stent: m stent biliar biodegradable
enteral stent: m stent enteral
oesophageal stent: m stent esofágico
duodenal stent: m stent duodenal
colonic stent: m stent colónico
airway stent: m stent de vía aérea
urethral stent: m stent uretral
lacrimal stent: m stent lagrimal
`);
