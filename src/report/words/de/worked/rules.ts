import type { rules as english } from '../../../../clinical/phrases/rules.js';

/** Rechenregeln, und worauf sie beruhen. Namen von Quellen bleiben, wie sie sind. */
export const rules: Record<keyof typeof english, string> = {
  'rule.sum': 'Summe',
  'rule.conversion': 'Umrechnung der Einheit nach Definition',
  'rule.mean-field-area': 'Kerma-Flächenprodukt ÷ Luftkerma',
  'rule.scanned-length': 'Dosis-Längen-Produkt ÷ CT-Dosisindex',
  'rule.cumulative': 'Summe; es wird angenommen, dass sich die Hautfelder überlappen',
  'rule.contrast-mass': 'mL × mg/mL ÷ 1000',
  'rule.egfr': '142 × min(Scr/κ; 1)^α × max(Scr/κ; 1)^−1,200 × 0,9938^Alter × 1,012 bei Frauen',
  'rule.egfr-cystatin':
    '133 × min(Scys/0,8; 1)^−0,499 × max(Scys/0,8; 1)^−1,328 × 0,996^Alter × 0,932 bei Frauen',
  'rule.kidney-injury':
    'Anstieg ≥ 26,5 µmol/L innerhalb von 48 h oder auf das ≥ 1,5-Fache innerhalb von 7 Tagen; Stadium 2 ab dem 2,0-Fachen, Stadium 3 ab dem 3,0-Fachen oder bei ≥ 353,6 µmol/L; eine Dialyse wird nicht berücksichtigt',
  'rule.creatinine-trend.before': 'letzter Wert vor dem Eingriff gegen den davor',
  'rule.creatinine-trend.after': 'letzter Wert nach dem Eingriff gegen den letzten davor',
  'rule.urine-output': 'mL ÷ kg ÷ h',
  'rule.urine-stage':
    'unter 0,5 mL/kg/h über 6 h ist Stadium 1, über 12 h Stadium 2; unter 0,3 über 24 h oder kein Urin über 12 h Stadium 3; Mittel über den Zeitraum',
  'rule.bleeding-risk': 'Zeile der Konsensustabelle',
  'rule.haemoglobin-change': 'letzter Wert nach dem Eingriff minus letzter Wert davor',
  'rule.last-dose': 'Zeit von der letzten Gabe bis zum Zugang',
  'rule.prophylaxis': 'Zeit von der letzten Gabe davor bis zum ersten Zugang',
  'rule.fasting': 'Zeit von der letzten Aufnahme bis zum Beginn der Sedierung',
  'rule.local-anaesthetic': 'mg ÷ kg; 1 % sind 10 mg/mL',
  'rule.grade': 'aus Behandlung, Aufenthalt und Schaden, wie dokumentiert',
  'rule.narrowing': '(1 − Lumen ÷ gesunder Durchmesser) × 100',
  'rule.success':
    'passiert, Fluss danach (keiner, wo verschlossen werden sollte), Produkt an seinem Ort, oder entfernt, wo es entfernt werden sollte',
  'rule.success-narrowing':
    'passiert, verbleibende Einengung höchstens {limit} %, Fluss danach (keiner, wo verschlossen werden sollte), Produkt an seinem Ort, oder entfernt, wo es entfernt werden sollte',
  'rule.sessions': 'wie dokumentiert; frühere Versuche und was sie zurückließen sind die Eingangswerte',
  'rule.interval': 'Differenz der beiden Zeiten, ganze Minuten',

  'basis.arithmetic': 'Arithmetik',
  'basis.practice': 'übliche Praxis, ohne Quelle',
  'basis.no-limit': 'Arithmetik; kein Grenzwert festgelegt',
  'basis.si': 'SI-Vorsätze; 1 m² = 10 000 cm²',
  'basis.kap': 'Definition des Kerma-Flächenprodukts (ICRU Report 74); aus dem Gedächtnis',
  'basis.scanned-length': 'DICOM PS3.16, Code 113838: DLP = CTDIvol × gescannte Länge',
  'basis.memory': '{source}; aus dem Gedächtnis',
  'basis.transcription': '{source}, in einer Abschrift gelesen',
  'basis.window': 'Zeitfenster: {source}',
  'basis.hours': 'Grenzwert {limit} h: {source}',
  'basis.minutes': 'Grenzwert {limit} min: {source}',
  'basis.per-weight': 'Arithmetik; Grenzwert für {drug} {limit} mg/kg: {source}',
  'basis.hold': 'Tabelle der Pausierungszeiten, {drug} {limit} h: {source}',
  'basis.no-hold': 'Arithmetik; die Tabelle der Pausierungszeiten hat dafür keine Zeile',
  'basis.site': 'Konfiguration der Einrichtung',
  'basis.record': 'das Protokoll',
  'basis.narrowing': 'Definition der Durchmesserstenose in Prozent',
  'basis.cirse-2025':
    'modifizierte CIRSE-Skala, CVIR 2026;49:2 (doi 10.1007/s00270-025-04200-w); welcher Grad 1a und welcher 1b ist, aus dem Gedächtnis',
  'basis.sir-2017': 'Khalilzadeh et al., JVIR 2017;28:1432; Grade aus dem Gedächtnis',
};
