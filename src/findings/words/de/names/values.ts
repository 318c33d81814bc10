import { names } from '../../language.js';

/** Laborwerte, Vitalzeichen und Maße. Aus dem Gedächtnis. */
export const values = names(`
creatinine: Kreatinin
creatinine clearance: Kreatinin-Clearance
creatinine in urine: Kreatinin im Urin
albumin to creatinine ratio: Albumin-Kreatinin-Quotient
creatine kinase: Kreatinkinase
cystatin C: Cystatin C
estimated filtration rate: geschätzte Filtrationsrate
urea: Harnstoff
sodium: Natrium
potassium: Kalium
calcium: Kalzium
magnesium: Magnesium
phosphate: Phosphat
glucose: Glukose
INR: INR
prothrombin time: Prothrombinzeit
aPTT: aPTT
activated clotting time: aktivierte Gerinnungszeit
platelets: Thrombozyten
platelet volume: Thrombozytenvolumen
fibrinogen: Fibrinogen
D-dimer: D-Dimer
anti-Xa: Anti-Xa
haemoglobin: Hämoglobin
glycated haemoglobin: glykiertes Hämoglobin
haematocrit: Hämatokrit
white cells: Leukozyten
neutrophils: Neutrophile
red cells: Erythrozyten
bilirubin: Bilirubin
direct bilirubin: direktes Bilirubin
albumin: Albumin
alkaline phosphatase: alkalische Phosphatase
gamma-glutamyl transferase: Gamma-Glutamyltransferase
alanine aminotransferase: Alanin-Aminotransferase
aspartate aminotransferase: Aspartat-Aminotransferase
lactate dehydrogenase: Laktatdehydrogenase
amylase: Amylase
lipase: Lipase
C-reactive protein: C-reaktives Protein
procalcitonin: Procalcitonin
lactate: Laktat
troponin: Troponin
thyroid stimulating hormone: Thyreotropin (TSH)
alpha-fetoprotein: Alpha-Fetoprotein
prostate specific antigen: prostataspezifisches Antigen
ammonia: Ammoniak
oxygen tension: Sauerstoffpartialdruck
carbon dioxide tension: Kohlendioxidpartialdruck
blood pressure: Blutdruck
mean arterial pressure: mittlerer arterieller Druck
heart rate: Herzfrequenz
oxygen saturation: Sauerstoffsättigung
respiratory rate: Atemfrequenz
body temperature: Körpertemperatur
length of the ureter: Harnleiterlänge
way to the target: Weg zur Zielstelle
length: Länge
pain: Schmerzen
bleeding: Blutung
fever: Fieber
temperature: Temperatur
redness: Rötung
swelling: Schwellung
urine output: Urinausscheidung
drain output: Drainagemenge
nausea: Übelkeit
vomiting: Erbrechen
rash: Ausschlag
hives: Urtikaria
urticaria: Urtikaria
itching: Juckreiz
anaphylaxis: Anaphylaxie
hypotension: Hypotonie
full blood count: Blutbild
culture: Kultur
histology: Histologie
cytology: Zytologie
microscopy: Mikroskopie
none: keine
`);
