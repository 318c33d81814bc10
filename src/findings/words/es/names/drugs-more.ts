import { names } from '../../language.js';

/** Fármacos, contrastes y alérgenos. De memoria. */
export const moreDrugs = names(`
metamizole: metamizol
aspirin: ácido acetilsalicílico
ibuprofen: ibuprofeno
diclofenac: diclofenaco
ketorolac: ketorolaco
naproxen: naproxeno
indometacin: indometacina
ketoprofen: ketoprofeno
parecoxib: parecoxib
celecoxib: celecoxib
etoricoxib: etoricoxib
ondansetron: ondansetrón
granisetron: granisetrón
metoclopramide: metoclopramida
droperidol: droperidol
cyclizine: ciclizina
haloperidol: haloperidol
heparin: heparina
enoxaparin: enoxaparina
low molecular weight heparin: heparina de bajo peso molecular
dalteparin: dalteparina
tinzaparin: tinzaparina
nadroparin: nadroparina
certoparin: certoparina
bemiparin: bemiparina
reviparin: reviparina
danaparoid: danaparoide
fondaparinux: fondaparinux
argatroban: argatrobán
bivalirudin: bivalirudina
warfarin: warfarina
acenocoumarol: acenocumarol
phenprocoumon: fenprocumón
apixaban: apixabán
rivaroxaban: rivaroxabán
edoxaban: edoxabán
dabigatran: dabigatrán
clopidogrel: clopidogrel
ticagrelor: ticagrelor
prasugrel: prasugrel
cangrelor: cangrelor
tirofiban: tirofibán
eptifibatide: eptifibatida
abciximab: abciximab
dipyridamole: dipiridamol
cilostazol: cilostazol
alteplase: alteplasa
tenecteplase: tenecteplasa
urokinase: urocinasa
streptokinase: estreptocinasa
tranexamic acid: ácido tranexámico
protamine: protamina
vitamin K: vitamina K
prothrombin complex: complejo de protrombina
vasopressin: vasopresina
terlipressin: terlipresina
trisodium citrate: citrato trisódico
atropine: atropina
glycopyrronium: glicopirronio
ephedrine: efedrina
phenylephrine: fenilefrina
metaraminol: metaraminol
amiodarone: amiodarona
adenosine: adenosina
metoprolol: metoprolol
bisoprolol: bisoprolol
esmolol: esmolol
labetalol: labetalol
propranolol: propranolol
glyceryl trinitrate: nitroglicerina
isosorbide dinitrate: dinitrato de isosorbida
nifedipine: nifedipino
nimodipine: nimodipino
nicardipine: nicardipino
verapamil: verapamilo
papaverine: papaverina
tolazoline: tolazolina
alprostadil: alprostadilo
iloprost: iloprost
hyoscine butylbromide: butilbromuro de hioscina
glucagon: glucagón
hydrocortisone: hidrocortisona
prednisolone: prednisolona
prednisone: prednisona
methylprednisolone: metilprednisolona
dexamethasone: dexametasona
triamcinolone: triamcinolona
betamethasone: betametasona
chlorphenamine: clorfenamina
clemastine: clemastina
dimetindene: dimetindeno
cetirizine: cetirizina
diphenhydramine: difenhidramina
ranitidine: ranitidina
famotidine: famotidina
cimetidine: cimetidina
omeprazole: omeprazol
pantoprazole: pantoprazol
salbutamol: salbutamol
furosemide: furosemida
mannitol: manitol
insulin: insulina
metformin: metformina
oxygen: oxígeno
acetylcysteine: acetilcisteína
sodium bicarbonate: bicarbonato de sodio
calcium gluconate: gluconato de calcio
calcium chloride: cloruro de calcio
magnesium sulfate: sulfato de magnesio
potassium chloride: cloruro de potasio
Ringer lactate: lactato de Ringer
gelatin solution: solución de gelatina
tacrolimus: tacrolimus
ciclosporin: ciclosporina
mycophenolate: micofenolato
ethanol: etanol
polidocanol: polidocanol
sodium tetradecyl sulphate: tetradecilsulfato de sodio
bleomycin: bleomicina
doxorubicin: doxorubicina
epirubicin: epirubicina
irinotecan: irinotecán
cisplatin: cisplatino
mitomycin: mitomicina
oxaliplatin: oxaliplatino
melphalan: melfalán
methylene blue: azul de metileno
indocyanine green: verde de indocianina
patent blue: azul patente
botulinum toxin: toxina botulínica
hyaluronidase: hialuronidasa
iodine: yodo
contrast: contraste
gadolinium: gadolinio
ultrasound contrast: contraste ecográfico
cephalosporins: cefalosporinas
beta-lactams: betalactámicos
carbapenems: carbapenémicos
aminoglycosides: aminoglucósidos
macrolides: macrólidos
quinolones: quinolonas
sulphonamides: sulfonamidas
local anaesthetics: anestésicos locales
ester local anaesthetics: anestésicos locales de tipo éster
opioids: opioides
benzodiazepines: benzodiacepinas
NSAIDs: AINE
salicylates: salicilatos
heparin-induced thrombocytopenia: trombocitopenia inducida por heparina
corticosteroids: corticoides
gelatin: gelatina
bovine protein: proteína bovina
latex: látex
dressing adhesives: adhesivos de apósitos
cyanoacrylate: cianoacrilato
bone cement: cemento óseo
nickel: níquel
paclitaxel: paclitaxel
fish: pescado
`);
