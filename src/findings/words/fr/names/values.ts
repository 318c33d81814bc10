import { names } from '../../language.js';

/** Examens de laboratoire, constantes vitales et mesures. De mémoire. */
export const values = names(`
creatinine: créatinine
creatinine clearance: clairance de la créatinine
creatinine in urine: créatinine urinaire
albumin to creatinine ratio: rapport albumine/créatinine
creatine kinase: créatine kinase
cystatin C: cystatine C
estimated filtration rate: débit de filtration estimé
urea: urée
sodium: sodium
potassium: potassium
calcium: calcium
magnesium: magnésium
phosphate: phosphate
glucose: glucose
INR: INR
prothrombin time: temps de prothrombine
aPTT: TCA
activated clotting time: temps de coagulation activé
platelets: plaquettes
platelet volume: volume plaquettaire
fibrinogen: fibrinogène
D-dimer: D-dimères
anti-Xa: anti-Xa
haemoglobin: hémoglobine
glycated haemoglobin: hémoglobine glyquée
haematocrit: hématocrite
white cells: leucocytes
neutrophils: neutrophiles
red cells: érythrocytes
bilirubin: bilirubine
direct bilirubin: bilirubine conjuguée
albumin: albumine
alkaline phosphatase: phosphatases alcalines
gamma-glutamyl transferase: gamma-glutamyltransférase
alanine aminotransferase: alanine aminotransférase
aspartate aminotransferase: aspartate aminotransférase
lactate dehydrogenase: lactate déshydrogénase
amylase: amylase
lipase: lipase
C-reactive protein: protéine C réactive
procalcitonin: procalcitonine
lactate: lactate
troponin: troponine
thyroid stimulating hormone: thyréostimuline (TSH)
alpha-fetoprotein: alpha-fœtoprotéine
prostate specific antigen: antigène prostatique spécifique
ammonia: ammoniac
oxygen tension: pression partielle en oxygène
carbon dioxide tension: pression partielle en dioxyde de carbone
blood pressure: pression artérielle
mean arterial pressure: pression artérielle moyenne
heart rate: fréquence cardiaque
oxygen saturation: saturation en oxygène
respiratory rate: fréquence respiratoire
body temperature: température corporelle
length of the ureter: longueur de l’uretère
way to the target: distance jusqu’à la cible
length: longueur
pain: douleur
bleeding: saignement
fever: fièvre
temperature: température
redness: rougeur
swelling: gonflement
urine output: diurèse
drain output: débit du drain
nausea: nausées
vomiting: vomissements
rash: éruption
hives: urticaire
urticaria: urticaire
itching: démangeaisons
anaphylaxis: anaphylaxie
hypotension: hypotension
full blood count: numération formule sanguine
culture: culture
histology: histologie
cytology: cytologie
microscopy: microscopie
none: aucun
`);
