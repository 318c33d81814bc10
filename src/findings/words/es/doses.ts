import type { doses as english } from '../en/doses.js';

/** Words of figures that cannot be right, of doses, sedation and limits, in Spanish. */
export const doses: Record<keyof typeof english, string> = {
  'unlikely.value': '{what} de {value} no puede ser correcto: es posible {range}.{would}',
  'unlikely.index':
    'El peso {weight} y la talla {height} dan un índice de masa corporal de {index}, fuera de {least} a {most}: uno de los dos no puede ser correcto.',
  'unlikely.decimal':
    '{what} de {value} tiene un decimal, y las plaquetas se cuentan en números enteros: encajaría {would}.',
  'range.amounts': 'de {least} a {most}',
  'anaesthetic.alone': '«{drug}» {dose} mg son {perKg} mg/kg, por encima de {limit} mg/kg.',
  'anaesthetic.together': 'Los anestésicos locales juntos ({drugs}) alcanzan el {percent} % de sus límites.',
  'anaesthetic.share': '{drug} {percent} %',
  'contrast.most': 'para cualquier paciente',
  'contrast.creatinine': '{factor} mL/kg divididos por la creatinina en mg/dL',
  'contrast.child': '{factor} mL/kg en un niño',
  'weight.child': 'Se administró «{drug}» {dose} a un niño y no consta el peso.',
  'weight.dose': '«{drug}» {dose} se dosifica por peso y no consta el peso.',
  'slip.short': 'El barrido fue corto, o uno de los dos está desviado diez veces.',
  'sedation.drug': 'La sedación consta como «{kind}» y a las {time} se administró «{drug}».',
  'sedation.relaxant': 'La sedación consta como «{kind}» y se administró el relajante muscular «{drug}».',
  'sedation.by': 'La sedación consta como «{kind}», a cargo de {name} ({role}), que no es anestesista.',
  'sedation.told': 'La sedación consta como «{kind}»; el texto dice «{text}».',
  'sedation.nobody': 'La sedación consta como «{kind}» y en el equipo no hay anestesista.',
  'sedation.after': '«{drug}» se administró a las {time}, después del final de la sedación a las {end}.',
  'sedation.before':
    '«{drug}» se administró a las {time}, mucho antes del inicio de la sedación a las {start}.',
  'calculation.egfr-bedside': 'Tasa de filtración estimada de un niño (Schwartz abreviada)',
  'rule.egfr-bedside': '0,413 × talla en cm ÷ creatinina en mg/dL, para creatinina por método enzimático',
  'rule.egfr-bedside.method':
    '0,413 × talla en cm ÷ creatinina en mg/dL, para creatinina por método enzimático; no consta el método de este valor',
  'input.height': 'Talla',
  'why.no-height': 'no consta la talla',
  'why.infant': 'la ecuación es para niños a partir de {n} año',
};
