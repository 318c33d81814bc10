import { names } from '../../language.js';

/** Clases de productos, con su género. De memoria. */
export const closingDevices = names(`
nephroureteral stent: m catéter nefroureteral
nephrostomy catheter: m catéter de nefrostomía
locking nephrostomy catheter: m catéter de nefrostomía con bloqueo
balloon nephrostomy catheter: m catéter de nefrostomía con balón
circle nephrostomy catheter: m catéter de nefrostomía circular
re-entry nephrostomy catheter: m catéter de nefrostomía de reentrada
suprapubic catheter: m catéter suprapúbico
bladder catheter: f sonda vesical
drainage catheter: m catéter de drenaje
abscess drain: m drenaje de absceso
pigtail drain: m drenaje en cola de cerdo
locking drainage catheter: m catéter de drenaje con bloqueo
sump drain: m drenaje aspirativo
straight drain: m drenaje recto
biliary drainage catheter: m catéter de drenaje biliar
internal-external biliary drainage catheter: m drenaje biliar interno-externo
external biliary drainage catheter: m drenaje biliar externo
locking biliary drainage catheter: m catéter de drenaje biliar con bloqueo
cholecystostomy catheter: m catéter de colecistostomía
locking cholecystostomy catheter: m catéter de colecistostomía con bloqueo
nasobiliary drain: m drenaje nasobiliar
T-tube: m tubo en T
pancreatic drain: m drenaje pancreático
liver abscess drain: m drenaje de absceso hepático
pelvic drain: m drenaje pélvico
lymphocele drain: m drenaje de linfocele
ascitic drain: m drenaje de ascitis
chest drain: m drenaje torácico
pericardial drain: m drenaje pericárdico
mediastinal drain: m drenaje mediastínico
tunnelled drain: m drenaje tunelizado
tunnelled pleural drain: m drenaje pleural tunelizado
tunnelled peritoneal drain: m drenaje peritoneal tunelizado
peritoneovenous shunt: f derivación peritoneovenosa
lumbar drain: m drenaje lumbar
thoracic duct drain: m drenaje del conducto torácico
caecostomy tube: f sonda de cecostomía
gastrostomy tube: f sonda de gastrostomía
balloon gastrostomy tube: f sonda de gastrostomía con balón
locking gastrostomy catheter: m catéter de gastrostomía con bloqueo
bumper gastrostomy tube: f sonda de gastrostomía con tope
low-profile gastrostomy device: m botón de gastrostomía
gastrojejunostomy tube: f sonda de gastroyeyunostomía
jejunostomy tube: f sonda de yeyunostomía
nasogastric tube: f sonda nasogástrica
nasojejunal tube: f sonda nasoyeyunal
oesophagostomy tube: f sonda de esofagostomía
rectal tube: f sonda rectal
caval filter: m filtro de vena cava
superior vena cava filter: m filtro de vena cava superior
embolic protection filter: m filtro de protección embólica
proximal protection device: m dispositivo de protección proximal
coil: m coil
detachable coil: m coil de liberación controlada
pushable coil: m coil de empuje
microcoil: m microcoil
hydrogel coil: m coil de hidrogel
aneurysm coil: m coil para aneurisma
vascular plug: m tapón vascular
intrasaccular device: m dispositivo intrasacular
septal occluder: m oclusor septal
detachable balloon: m balón desprendible
particles: p partículas de embolización
microspheres: p microesferas
drug-eluting beads: p microesferas liberadoras de fármaco
radioactive microspheres: p microesferas radiactivas
gelatin sponge: f esponja de gelatina
liquid embolic: m embolizante líquido
embolic glue: m pegamento de embolización
sclerosant: m esclerosante
thrombin: f trombina
autologous blood clot: m coágulo autólogo
closure device: m dispositivo de cierre
suture-mediated closure device: m dispositivo de cierre por sutura
collagen plug closure device: m dispositivo de cierre con tapón de colágeno
clip closure device: m dispositivo de cierre con clip
patch closure device: m parche hemostático
tract plug: m tapón del trayecto
compression device: m dispositivo de compresión
marker: m marcador
localisation wire: m arpón de localización
magnetic seed: f semilla magnética
gastropexy anchor: f ancla de gastropexia
cement: m cemento óseo
snare: m lazo de captura
three-loop snare: m lazo de tres asas
retrieval cone: m cono de recuperación
retrieval hook: m gancho de recuperación
retrieval set: m set de recuperación
forceps: f pinza
biopsy forceps: f pinza de biopsia
laser sheath: f vaina láser
stone basket: f cesta de extracción de cálculos
lithotripter: m litotriptor
cholangioscope: m colangioscopio
thrombectomy device: m dispositivo de trombectomía
stent retriever: m stent recuperador de trombos
ablation needle: f aguja de ablación
radiofrequency electrode: m electrodo de radiofrecuencia
microwave antenna: f antena de microondas
cryoprobe: f criosonda
electroporation electrode: m electrodo de electroporación
laser ablation fibre: f fibra láser de ablación
ethanol injection needle: f aguja de inyección de etanol
thermocouple: m termopar
hydrodissection needle: f aguja de hidrodisección
radiofrequency denervation needle: f aguja de denervación por radiofrecuencia
bone screw: m tornillo óseo
vertebral implant: m implante vertebral
cavity creation device: m instrumento para crear cavidad
cement delivery system: m sistema de aplicación de cemento
calcific lavage needle: f aguja de lavado de calcificaciones
arthrography needle: f aguja de artrografía
pusher: m empujador
delivery system: m sistema de liberación
stiffening cannula: f cánula rigidizadora
obturator: m obturador
tunneller: m tunelizador
swab: f gasa
connecting tube: m tubo de conexión
stopcock: f llave de paso
haemostatic valve: f válvula hemostática
drainage bag: f bolsa de drenaje
vacuum bottle: f botella de vacío
one-way valve: f válvula unidireccional
inflation device: m inflador
syringe: f jeringa
torque device: m rotor de guía
wire insertion tool: m insertor de guía
scalpel: m bisturí
skin fixation device: m dispositivo de fijación a la piel
dressing: m apósito
suture: f sutura
skin adhesive: m adhesivo cutáneo
disinfectant cap: m tapón desinfectante
port needle: f aguja de reservorio
ultrasound probe cover: f funda de sonda de ecografía
needle guide: m guía de aguja
grounding pad: f placa de retorno
contrast injector: m inyector de contraste
carbon dioxide delivery system: m sistema de aplicación de dióxido de carbono
blood return filter: m filtro de retorno de sangre
external fixation clamp: f pinza externa
drape: m paño estéril
endotracheal tube: m tubo endotraqueal
`);
