import { names } from '../../language.js';

/** Médicaments, produits de contraste et allergènes. De mémoire. */
export const moreDrugs = names(`
metamizole: métamizole
aspirin: acide acétylsalicylique
ibuprofen: ibuprofène
diclofenac: diclofénac
ketorolac: kétorolac
naproxen: naproxène
indometacin: indométacine
ketoprofen: kétoprofène
parecoxib: parécoxib
celecoxib: célécoxib
etoricoxib: étoricoxib
ondansetron: ondansétron
granisetron: granisétron
metoclopramide: métoclopramide
droperidol: dropéridol
cyclizine: cyclizine
haloperidol: halopéridol
heparin: héparine
enoxaparin: énoxaparine
low molecular weight heparin: héparine de bas poids moléculaire
dalteparin: daltéparine
tinzaparin: tinzaparine
nadroparin: nadroparine
certoparin: certoparine
bemiparin: bémiparine
reviparin: réviparine
danaparoid: danaparoïde
fondaparinux: fondaparinux
argatroban: argatroban
bivalirudin: bivalirudine
warfarin: warfarine
acenocoumarol: acénocoumarol
phenprocoumon: phenprocoumone
apixaban: apixaban
rivaroxaban: rivaroxaban
edoxaban: édoxaban
dabigatran: dabigatran
clopidogrel: clopidogrel
ticagrelor: ticagrélor
prasugrel: prasugrel
cangrelor: cangrélor
tirofiban: tirofiban
eptifibatide: eptifibatide
abciximab: abciximab
dipyridamole: dipyridamole
cilostazol: cilostazol
alteplase: altéplase
tenecteplase: ténectéplase
urokinase: urokinase
streptokinase: streptokinase
tranexamic acid: acide tranexamique
protamine: protamine
vitamin K: vitamine K
prothrombin complex: complexe prothrombinique
vasopressin: vasopressine
terlipressin: terlipressine
trisodium citrate: citrate trisodique
atropine: atropine
glycopyrronium: glycopyrronium
ephedrine: éphédrine
phenylephrine: phényléphrine
metaraminol: métaraminol
amiodarone: amiodarone
adenosine: adénosine
metoprolol: métoprolol
bisoprolol: bisoprolol
esmolol: esmolol
labetalol: labétalol
propranolol: propranolol
glyceryl trinitrate: trinitrine
isosorbide dinitrate: dinitrate d’isosorbide
nifedipine: nifédipine
nimodipine: nimodipine
nicardipine: nicardipine
verapamil: vérapamil
papaverine: papavérine
tolazoline: tolazoline
alprostadil: alprostadil
iloprost: iloprost
hyoscine butylbromide: butylscopolamine
glucagon: glucagon
hydrocortisone: hydrocortisone
prednisolone: prednisolone
prednisone: prednisone
methylprednisolone: méthylprednisolone
dexamethasone: dexaméthasone
triamcinolone: triamcinolone
betamethasone: bétaméthasone
chlorphenamine: chlorphénamine
clemastine: clémastine
dimetindene: dimétindène
cetirizine: cétirizine
diphenhydramine: diphenhydramine
ranitidine: ranitidine
famotidine: famotidine
cimetidine: cimétidine
omeprazole: oméprazole
pantoprazole: pantoprazole
salbutamol: salbutamol
furosemide: furosémide
mannitol: mannitol
insulin: insuline
metformin: metformine
oxygen: oxygène
acetylcysteine: acétylcystéine
sodium bicarbonate: bicarbonate de sodium
calcium gluconate: gluconate de calcium
calcium chloride: chlorure de calcium
magnesium sulfate: sulfate de magnésium
potassium chloride: chlorure de potassium
Ringer lactate: Ringer lactate
gelatin solution: solution de gélatine
tacrolimus: tacrolimus
ciclosporin: ciclosporine
mycophenolate: mycophénolate
ethanol: éthanol
polidocanol: polidocanol
sodium tetradecyl sulphate: tétradécylsulfate de sodium
bleomycin: bléomycine
doxorubicin: doxorubicine
epirubicin: épirubicine
irinotecan: irinotécan
cisplatin: cisplatine
mitomycin: mitomycine
oxaliplatin: oxaliplatine
melphalan: melphalan
methylene blue: bleu de méthylène
indocyanine green: vert d’indocyanine
patent blue: bleu patenté
botulinum toxin: toxine botulique
hyaluronidase: hyaluronidase
iodine: iode
contrast: produit de contraste
gadolinium: gadolinium
ultrasound contrast: produit de contraste échographique
cephalosporins: céphalosporines
beta-lactams: bêtalactamines
carbapenems: carbapénèmes
aminoglycosides: aminosides
macrolides: macrolides
quinolones: quinolones
sulphonamides: sulfamides
local anaesthetics: anesthésiques locaux
ester local anaesthetics: anesthésiques locaux de type ester
opioids: opioïdes
benzodiazepines: benzodiazépines
NSAIDs: AINS
salicylates: salicylés
heparin-induced thrombocytopenia: thrombopénie induite par l’héparine
corticosteroids: corticoïdes
gelatin: gélatine
bovine protein: protéine bovine
latex: latex
dressing adhesives: adhésifs de pansement
cyanoacrylate: cyanoacrylate
bone cement: ciment osseux
nickel: nickel
paclitaxel: paclitaxel
fish: poisson
`);
