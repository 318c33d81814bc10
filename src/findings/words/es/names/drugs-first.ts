import { names } from '../../language.js';

/** Fármacos, contrastes y alérgenos. De memoria. */
export const firstDrugs = names(`
iohexol: iohexol
iopamidol: iopamidol
iodixanol: iodixanol
iopromide: iopromida
iomeprol: iomeprol
ioversol: ioversol
iobitridol: iobitridol
iopentol: iopentol
ioxilan: ioxilán
iotrolan: iotrolán
iosimenol: iosimenol
iotroxic acid: ácido iotróxico
ioxaglate: ioxaglato
ioxitalamate: ioxitalamato
iotalamate: iotalamato
metrizoate: metrizoato
diatrizoate: amidotrizoato
ethiodised oil: aceite etiodado
iodinated contrast: contraste yodado
gadobutrol: gadobutrol
gadoterate: ácido gadotérico
gadoteridol: gadoteridol
gadobenate: ácido gadobénico
gadoxetate: ácido gadoxético
gadopentetate: ácido gadopentético
gadodiamide: gadodiamida
gadoversetamide: gadoversetamida
gadofosveset: gadofosveset
gadopiclenol: gadopiclenol
gadolinium contrast: contraste de gadolinio
carbon dioxide: dióxido de carbono
air: aire
water: agua
barium sulfate: sulfato de bario
sulphur hexafluoride: hexafluoruro de azufre
perflutren: perflutreno
sodium chloride: cloruro de sodio
penicillin: penicilina
amoxicillin: amoxicilina
co-amoxiclav: amoxicilina/ácido clavulánico
ampicillin: ampicilina
ampicillin-sulbactam: ampicilina/sulbactam
flucloxacillin: flucloxacilina
cloxacillin: cloxacilina
dicloxacillin: dicloxacilina
oxacillin: oxacilina
piperacillin-tazobactam: piperacilina/tazobactam
temocillin: temocilina
pivmecillinam: pivmecilinam
cefazolin: cefazolina
cefuroxime: cefuroxima
ceftriaxone: ceftriaxona
cefotaxime: cefotaxima
ceftazidime: ceftazidima
cefepime: cefepima
cefoxitin: cefoxitina
cefotetan: cefotetán
cefiderocol: cefiderocol
ceftaroline: ceftarolina
cefixime: cefixima
cefpodoxime: cefpodoxima
cefdinir: cefdinir
cefalexin: cefalexina
cefadroxil: cefadroxilo
cefaclor: cefaclor
meropenem: meropenem
imipenem: imipenem
ertapenem: ertapenem
aztreonam: aztreonam
gentamicin: gentamicina
tobramycin: tobramicina
amikacin: amikacina
clarithromycin: claritromicina
erythromycin: eritromicina
azithromycin: azitromicina
ciprofloxacin: ciprofloxacino
levofloxacin: levofloxacino
moxifloxacin: moxifloxacino
ofloxacin: ofloxacino
vancomycin: vancomicina
teicoplanin: teicoplanina
metronidazole: metronidazol
tinidazole: tinidazol
clindamycin: clindamicina
doxycycline: doxiciclina
minocycline: minociclina
tetracycline: tetraciclina
linezolid: linezolid
trimethoprim: trimetoprima
sulfadiazine: sulfadiazina
co-trimoxazole: cotrimoxazol
fosfomycin: fosfomicina
fluconazole: fluconazol
caspofungin: caspofungina
anidulafungin: anidulafungina
taurolidine: taurolidina
chlorhexidine: clorhexidina
povidone-iodine: povidona yodada
lidocaine: lidocaína
bupivacaine: bupivacaína
levobupivacaine: levobupivacaína
ropivacaine: ropivacaína
mepivacaine: mepivacaína
prilocaine: prilocaína
articaine: articaína
procaine: procaína
chloroprocaine: cloroprocaína
tetracaine: tetracaína
benzocaine: benzocaína
cocaine: cocaína
lidocaine-prilocaine cream: crema de lidocaína y prilocaína
adrenaline: adrenalina
noradrenaline: noradrenalina
fentanyl: fentanilo
remifentanil: remifentanilo
alfentanil: alfentanilo
sufentanil: sufentanilo
morphine: morfina
diamorphine: diamorfina
pethidine: petidina
oxycodone: oxicodona
hydromorphone: hidromorfona
codeine: codeína
dihydrocodeine: dihidrocodeína
tramadol: tramadol
piritramide: piritramida
buprenorphine: buprenorfina
methadone: metadona
nalbuphine: nalbufina
midazolam: midazolam
diazepam: diazepam
lorazepam: lorazepam
remimazolam: remimazolam
temazepam: temazepam
clonazepam: clonazepam
alprazolam: alprazolam
oxazepam: oxazepam
bromazepam: bromazepam
propofol: propofol
ketamine: ketamina
esketamine: esketamina
etomidate: etomidato
thiopental: tiopental
dexmedetomidine: dexmedetomidina
clonidine: clonidina
nitrous oxide: óxido nitroso
sevoflurane: sevoflurano
desflurane: desflurano
isoflurane: isoflurano
rocuronium: rocuronio
vecuronium: vecuronio
atracurium: atracurio
cisatracurium: cisatracurio
suxamethonium: suxametonio
sugammadex: sugammadex
neostigmine: neostigmina
naloxone: naloxona
naltrexone: naltrexona
flumazenil: flumazenilo
paracetamol: paracetamol
`);
