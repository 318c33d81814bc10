import type { rules as english } from '../../../../clinical/phrases/rules.js';

/** Reglas de cálculo y en qué se basan. Los nombres de las fuentes quedan como son. */
export const rules: Record<keyof typeof english, string> = {
  'rule.sum': 'suma',
  'rule.conversion': 'conversión de unidades por definición',
  'rule.mean-field-area': 'producto kerma-área ÷ kerma en aire',
  'rule.scanned-length': 'producto dosis-longitud ÷ índice de dosis de TC',
  'rule.cumulative': 'suma; se supone que los campos en la piel se superponen',
  'rule.contrast-mass': 'mL × mg/mL ÷ 1000',
  'rule.egfr': '142 × mín(Scr/κ; 1)^α × máx(Scr/κ; 1)^−1,200 × 0,9938^edad × 1,012 si es mujer',
  'rule.egfr-cystatin':
    '133 × mín(Scys/0,8; 1)^−0,499 × máx(Scys/0,8; 1)^−1,328 × 0,996^edad × 0,932 si es mujer',
  'rule.kidney-injury':
    'aumento ≥ 26,5 µmol/L en 48 h, o a ≥ 1,5 veces en 7 días; estadio 2 desde 2,0 veces, estadio 3 desde 3,0 veces o con ≥ 353,6 µmol/L; la diálisis no se tiene en cuenta',
  'rule.creatinine-trend.before': 'último valor antes del procedimiento frente al anterior',
  'rule.creatinine-trend.after': 'último valor después del procedimiento frente al último de antes',
  'rule.urine-output': 'mL ÷ kg ÷ h',
  'rule.urine-stage':
    'menos de 0,5 mL/kg/h durante 6 h es estadio 1, durante 12 h estadio 2; menos de 0,3 durante 24 h, o anuria durante 12 h, estadio 3; media del intervalo',
  'rule.bleeding-risk': 'fila de la tabla de consenso',
  'rule.haemoglobin-change': 'último valor después del procedimiento menos el último de antes',
  'rule.last-dose': 'tiempo desde la última dosis hasta el acceso',
  'rule.prophylaxis': 'tiempo desde la última dosis previa hasta el primer acceso',
  'rule.fasting': 'tiempo desde la última ingesta hasta el inicio de la sedación',
  'rule.local-anaesthetic': 'mg ÷ kg; 1 % son 10 mg/mL',
  'rule.grade': 'según tratamiento, estancia y daño, tal como se registraron',
  'rule.narrowing': '(1 − luz ÷ diámetro sano) × 100',
  'rule.success':
    'atravesado, flujo después (ninguno, si se debía cerrar), producto en su sitio, o fuera si se debía retirar',
  'rule.success-narrowing':
    'atravesado, estrechez residual de {limit} % como máximo, flujo después (ninguno, si se debía cerrar), producto en su sitio, o fuera si se debía retirar',
  'rule.sessions': 'según el registro; los datos son los intentos anteriores y lo que dejaron colocado',
  'rule.interval': 'diferencia entre las dos horas, en minutos enteros',

  'basis.arithmetic': 'aritmética',
  'basis.practice': 'práctica habitual, sin fuente',
  'basis.no-limit': 'aritmética; no hay límite fijado',
  'basis.si': 'prefijos del SI; 1 m² = 10 000 cm²',
  'basis.kap': 'definición del producto kerma-área (ICRU Report 74); de memoria',
  'basis.scanned-length': 'DICOM PS3.16, código 113838: DLP = CTDIvol × longitud explorada',
  'basis.memory': '{source}; de memoria',
  'basis.transcription': '{source}, leído en una transcripción',
  'basis.window': 'plazo: {source}',
  'basis.hours': 'límite {limit} h: {source}',
  'basis.minutes': 'límite {limit} min: {source}',
  'basis.per-weight': 'aritmética; límite para {drug} {limit} mg/kg: {source}',
  'basis.hold': 'tabla de tiempos de suspensión, {drug} {limit} h: {source}',
  'basis.no-hold': 'aritmética; la tabla de tiempos de suspensión no tiene fila para este fármaco',
  'basis.site': 'configuración del centro',
  'basis.record': 'el registro',
  'basis.narrowing': 'definición de la estenosis porcentual del diámetro',
  'basis.cirse-2025':
    'escala CIRSE modificada, CVIR 2026;49:2 (doi 10.1007/s00270-025-04200-w); cuál es 1a y cuál 1b, de memoria',
  'basis.sir-2017': 'Khalilzadeh et al., JVIR 2017;28:1432; grados de memoria',
};
