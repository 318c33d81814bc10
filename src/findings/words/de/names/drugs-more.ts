import { names } from '../../language.js';

/** Wirkstoffe, Kontrastmittel und Allergene. Aus dem Gedächtnis. */
export const moreDrugs = names(`
metamizole: Metamizol
aspirin: Acetylsalicylsäure
ibuprofen: Ibuprofen
diclofenac: Diclofenac
ketorolac: Ketorolac
naproxen: Naproxen
indometacin: Indometacin
ketoprofen: Ketoprofen
parecoxib: Parecoxib
celecoxib: Celecoxib
etoricoxib: Etoricoxib
ondansetron: Ondansetron
granisetron: Granisetron
metoclopramide: Metoclopramid
droperidol: Droperidol
cyclizine: Cyclizin
haloperidol: Haloperidol
heparin: Heparin
enoxaparin: Enoxaparin
low molecular weight heparin: niedermolekulares Heparin
dalteparin: Dalteparin
tinzaparin: Tinzaparin
nadroparin: Nadroparin
certoparin: Certoparin
bemiparin: Bemiparin
reviparin: Reviparin
danaparoid: Danaparoid
fondaparinux: Fondaparinux
argatroban: Argatroban
bivalirudin: Bivalirudin
warfarin: Warfarin
acenocoumarol: Acenocoumarol
phenprocoumon: Phenprocoumon
apixaban: Apixaban
rivaroxaban: Rivaroxaban
edoxaban: Edoxaban
dabigatran: Dabigatran
clopidogrel: Clopidogrel
ticagrelor: Ticagrelor
prasugrel: Prasugrel
cangrelor: Cangrelor
tirofiban: Tirofiban
eptifibatide: Eptifibatid
abciximab: Abciximab
dipyridamole: Dipyridamol
cilostazol: Cilostazol
alteplase: Alteplase
tenecteplase: Tenecteplase
urokinase: Urokinase
streptokinase: Streptokinase
tranexamic acid: Tranexamsäure
protamine: Protamin
vitamin K: Vitamin K
prothrombin complex: Prothrombinkomplex
vasopressin: Vasopressin
terlipressin: Terlipressin
trisodium citrate: Natriumcitrat
atropine: Atropin
glycopyrronium: Glycopyrronium
ephedrine: Ephedrin
phenylephrine: Phenylephrin
metaraminol: Metaraminol
amiodarone: Amiodaron
adenosine: Adenosin
metoprolol: Metoprolol
bisoprolol: Bisoprolol
esmolol: Esmolol
labetalol: Labetalol
propranolol: Propranolol
glyceryl trinitrate: Glyceroltrinitrat
isosorbide dinitrate: Isosorbiddinitrat
nifedipine: Nifedipin
nimodipine: Nimodipin
nicardipine: Nicardipin
verapamil: Verapamil
papaverine: Papaverin
tolazoline: Tolazolin
alprostadil: Alprostadil
iloprost: Iloprost
hyoscine butylbromide: Butylscopolamin
glucagon: Glukagon
hydrocortisone: Hydrocortison
prednisolone: Prednisolon
prednisone: Prednison
methylprednisolone: Methylprednisolon
dexamethasone: Dexamethason
triamcinolone: Triamcinolon
betamethasone: Betamethason
chlorphenamine: Chlorphenamin
clemastine: Clemastin
dimetindene: Dimetinden
cetirizine: Cetirizin
diphenhydramine: Diphenhydramin
ranitidine: Ranitidin
famotidine: Famotidin
cimetidine: Cimetidin
omeprazole: Omeprazol
pantoprazole: Pantoprazol
salbutamol: Salbutamol
furosemide: Furosemid
mannitol: Mannitol
insulin: Insulin
metformin: Metformin
oxygen: Sauerstoff
acetylcysteine: Acetylcystein
sodium bicarbonate: Natriumhydrogencarbonat
calcium gluconate: Calciumgluconat
calcium chloride: Calciumchlorid
magnesium sulfate: Magnesiumsulfat
potassium chloride: Kaliumchlorid
Ringer lactate: Ringerlaktat
gelatin solution: Gelatinelösung
tacrolimus: Tacrolimus
ciclosporin: Ciclosporin
mycophenolate: Mycophenolat
ethanol: Ethanol
polidocanol: Polidocanol
sodium tetradecyl sulphate: Natriumtetradecylsulfat
bleomycin: Bleomycin
doxorubicin: Doxorubicin
epirubicin: Epirubicin
irinotecan: Irinotecan
cisplatin: Cisplatin
mitomycin: Mitomycin
oxaliplatin: Oxaliplatin
melphalan: Melphalan
methylene blue: Methylenblau
indocyanine green: Indocyaningrün
patent blue: Patentblau
botulinum toxin: Botulinumtoxin
hyaluronidase: Hyaluronidase
iodine: Jod
contrast: Kontrastmittel
gadolinium: Gadolinium
ultrasound contrast: Ultraschallkontrastmittel
cephalosporins: Cephalosporine
beta-lactams: Betalaktame
carbapenems: Carbapeneme
aminoglycosides: Aminoglykoside
macrolides: Makrolide
quinolones: Chinolone
sulphonamides: Sulfonamide
local anaesthetics: Lokalanästhetika
ester local anaesthetics: Lokalanästhetika vom Estertyp
opioids: Opioide
benzodiazepines: Benzodiazepine
NSAIDs: NSAR
salicylates: Salicylate
heparin-induced thrombocytopenia: heparininduzierte Thrombozytopenie
corticosteroids: Kortikosteroide
gelatin: Gelatine
bovine protein: Rinderprotein
latex: Latex
dressing adhesives: Pflasterkleber
cyanoacrylate: Cyanacrylat
bone cement: Knochenzement
nickel: Nickel
paclitaxel: Paclitaxel
fish: Fisch
`);
