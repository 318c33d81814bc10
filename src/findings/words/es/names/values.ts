import { names } from '../../language.js';

/** Valores de laboratorio, constantes vitales y medidas. De memoria. */
export const values = names(`
creatinine: creatinina
creatinine clearance: aclaramiento de creatinina
creatinine in urine: creatinina en orina
albumin to creatinine ratio: cociente albúmina/creatinina
creatine kinase: creatina cinasa
cystatin C: cistatina C
estimated filtration rate: tasa de filtración estimada
urea: urea
sodium: sodio
potassium: potasio
calcium: calcio
magnesium: magnesio
phosphate: fosfato
glucose: glucosa
INR: INR
prothrombin time: tiempo de protrombina
aPTT: TTPa
activated clotting time: tiempo de coagulación activado
platelets: plaquetas
platelet volume: volumen plaquetario
fibrinogen: fibrinógeno
D-dimer: dímero D
anti-Xa: anti-Xa
haemoglobin: hemoglobina
glycated haemoglobin: hemoglobina glucosilada
haematocrit: hematocrito
white cells: leucocitos
neutrophils: neutrófilos
red cells: eritrocitos
bilirubin: bilirrubina
direct bilirubin: bilirrubina directa
albumin: albúmina
alkaline phosphatase: fosfatasa alcalina
gamma-glutamyl transferase: gamma-glutamiltransferasa
alanine aminotransferase: alanina aminotransferasa
aspartate aminotransferase: aspartato aminotransferasa
lactate dehydrogenase: lactato deshidrogenasa
amylase: amilasa
lipase: lipasa
C-reactive protein: proteína C reactiva
procalcitonin: procalcitonina
lactate: lactato
troponin: troponina
thyroid stimulating hormone: tirotropina (TSH)
alpha-fetoprotein: alfafetoproteína
prostate specific antigen: antígeno prostático específico
ammonia: amoníaco
oxygen tension: presión parcial de oxígeno
carbon dioxide tension: presión parcial de dióxido de carbono
blood pressure: presión arterial
mean arterial pressure: presión arterial media
heart rate: frecuencia cardíaca
oxygen saturation: saturación de oxígeno
respiratory rate: frecuencia respiratoria
body temperature: temperatura corporal
length of the ureter: longitud del uréter
way to the target: distancia a la diana
length: longitud
pain: dolor
bleeding: sangrado
fever: fiebre
temperature: temperatura
redness: enrojecimiento
swelling: hinchazón
urine output: diuresis
drain output: débito del drenaje
nausea: náuseas
vomiting: vómitos
rash: exantema
hives: urticaria
urticaria: urticaria
itching: prurito
anaphylaxis: anafilaxia
hypotension: hipotensión
full blood count: hemograma
culture: cultivo
histology: histología
cytology: citología
microscopy: microscopía
none: ninguno
`);
