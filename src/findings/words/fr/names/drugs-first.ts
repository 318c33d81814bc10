import { names } from '../../language.js';

/** Médicaments, produits de contraste et allergènes. De mémoire. */
export const firstDrugs = names(`
iohexol: iohexol
iopamidol: iopamidol
iodixanol: iodixanol
iopromide: iopromide
iomeprol: ioméprol
ioversol: ioversol
iobitridol: iobitridol
iopentol: iopentol
ioxilan: ioxilan
iotrolan: iotrolan
iosimenol: iosiménol
iotroxic acid: acide iotroxique
ioxaglate: ioxaglate
ioxitalamate: ioxitalamate
iotalamate: iotalamate
metrizoate: métrizoate
diatrizoate: amidotrizoate
ethiodised oil: huile iodée
iodinated contrast: produit de contraste iodé
gadobutrol: gadobutrol
gadoterate: acide gadotérique
gadoteridol: gadotéridol
gadobenate: acide gadobénique
gadoxetate: acide gadoxétique
gadopentetate: acide gadopentétique
gadodiamide: gadodiamide
gadoversetamide: gadoversétamide
gadofosveset: gadofosveset
gadopiclenol: gadopiclénol
gadolinium contrast: produit de contraste gadoliné
carbon dioxide: dioxyde de carbone
air: air
water: eau
barium sulfate: sulfate de baryum
sulphur hexafluoride: hexafluorure de soufre
perflutren: perflutrène
sodium chloride: chlorure de sodium
penicillin: pénicilline
amoxicillin: amoxicilline
co-amoxiclav: amoxicilline/acide clavulanique
ampicillin: ampicilline
ampicillin-sulbactam: ampicilline/sulbactam
flucloxacillin: flucloxacilline
cloxacillin: cloxacilline
dicloxacillin: dicloxacilline
oxacillin: oxacilline
piperacillin-tazobactam: pipéracilline/tazobactam
temocillin: témocilline
pivmecillinam: pivmécillinam
cefazolin: céfazoline
cefuroxime: céfuroxime
ceftriaxone: ceftriaxone
cefotaxime: céfotaxime
ceftazidime: ceftazidime
cefepime: céfépime
cefoxitin: céfoxitine
cefotetan: céfotétan
cefiderocol: céfidérocol
ceftaroline: ceftaroline
cefixime: céfixime
cefpodoxime: cefpodoxime
cefdinir: cefdinir
cefalexin: céfalexine
cefadroxil: céfadroxil
cefaclor: céfaclor
meropenem: méropénem
imipenem: imipénem
ertapenem: ertapénem
aztreonam: aztréonam
gentamicin: gentamicine
tobramycin: tobramycine
amikacin: amikacine
clarithromycin: clarithromycine
erythromycin: érythromycine
azithromycin: azithromycine
ciprofloxacin: ciprofloxacine
levofloxacin: lévofloxacine
moxifloxacin: moxifloxacine
ofloxacin: ofloxacine
vancomycin: vancomycine
teicoplanin: téicoplanine
metronidazole: métronidazole
tinidazole: tinidazole
clindamycin: clindamycine
doxycycline: doxycycline
minocycline: minocycline
tetracycline: tétracycline
linezolid: linézolide
trimethoprim: triméthoprime
sulfadiazine: sulfadiazine
co-trimoxazole: cotrimoxazole
fosfomycin: fosfomycine
fluconazole: fluconazole
caspofungin: caspofungine
anidulafungin: anidulafungine
taurolidine: taurolidine
chlorhexidine: chlorhexidine
povidone-iodine: povidone iodée
lidocaine: lidocaïne
bupivacaine: bupivacaïne
levobupivacaine: lévobupivacaïne
ropivacaine: ropivacaïne
mepivacaine: mépivacaïne
prilocaine: prilocaïne
articaine: articaïne
procaine: procaïne
chloroprocaine: chloroprocaïne
tetracaine: tétracaïne
benzocaine: benzocaïne
cocaine: cocaïne
lidocaine-prilocaine cream: crème lidocaïne-prilocaïne
adrenaline: adrénaline
noradrenaline: noradrénaline
fentanyl: fentanyl
remifentanil: rémifentanil
alfentanil: alfentanil
sufentanil: sufentanil
morphine: morphine
diamorphine: diamorphine
pethidine: péthidine
oxycodone: oxycodone
hydromorphone: hydromorphone
codeine: codéine
dihydrocodeine: dihydrocodéine
tramadol: tramadol
piritramide: piritramide
buprenorphine: buprénorphine
methadone: méthadone
nalbuphine: nalbuphine
midazolam: midazolam
diazepam: diazépam
lorazepam: lorazépam
remimazolam: rémimazolam
temazepam: témazépam
clonazepam: clonazépam
alprazolam: alprazolam
oxazepam: oxazépam
bromazepam: bromazépam
propofol: propofol
ketamine: kétamine
esketamine: eskétamine
etomidate: étomidate
thiopental: thiopental
dexmedetomidine: dexmédétomidine
clonidine: clonidine
nitrous oxide: protoxyde d’azote
sevoflurane: sévoflurane
desflurane: desflurane
isoflurane: isoflurane
rocuronium: rocuronium
vecuronium: vécuronium
atracurium: atracurium
cisatracurium: cisatracurium
suxamethonium: suxaméthonium
sugammadex: sugammadex
neostigmine: néostigmine
naloxone: naloxone
naltrexone: naltrexone
flumazenil: flumazénil
paracetamol: paracétamol
`);
