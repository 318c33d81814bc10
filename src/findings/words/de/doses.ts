import type { doses as english } from '../en/doses.js';

/** Words of figures that cannot be right, of doses, sedation and limits, in German. */
export const doses: Record<keyof typeof english, string> = {
  'unlikely.value': '{what} von {value} kann nicht stimmen: möglich ist {range}.{would}',
  'unlikely.index':
    'Gewicht {weight} und Größe {height} ergeben einen Body-Mass-Index von {index}, außerhalb von {least} bis {most}: eine der Angaben kann nicht stimmen.',
  'unlikely.decimal':
    '{what} von {value} hat eine Nachkommastelle, Thrombozyten werden aber in ganzen Zahlen angegeben: {would} würde passen.',
  'range.amounts': '{least} bis {most}',
  'anaesthetic.alone': '„{drug}“ {dose} mg sind {perKg} mg/kg, über {limit} mg/kg.',
  'anaesthetic.together': 'Lokalanästhetika zusammen ({drugs}) erreichen {percent} % ihrer Grenzen.',
  'anaesthetic.share': '{drug} {percent} %',
  'contrast.most': 'für alle',
  'contrast.creatinine': '{factor} mL/kg, geteilt durch das Kreatinin in mg/dL',
  'contrast.child': '{factor} mL/kg bei einem Kind',
  'weight.child': 'Einem Kind wurde „{drug}“ {dose} gegeben, und kein Gewicht ist dokumentiert.',
  'weight.dose': '„{drug}“ {dose} wird nach Gewicht dosiert, und kein Gewicht ist dokumentiert.',
  'slip.short': 'Der Scan war kurz, oder eine der Angaben ist um das Zehnfache falsch.',
  'sedation.drug': 'Als Sedierung ist „{kind}“ dokumentiert, und um {time} wurde „{drug}“ gegeben.',
  'sedation.relaxant':
    'Als Sedierung ist „{kind}“ dokumentiert, und das Muskelrelaxans „{drug}“ wurde gegeben.',
  'sedation.by':
    'Als Sedierung ist „{kind}“ dokumentiert, durchgeführt von {name} ({role}), ohne Facharzt für Anästhesie.',
  'sedation.told': 'Als Sedierung ist „{kind}“ dokumentiert; der Text sagt „{text}“.',
  'sedation.nobody': 'Als Sedierung ist „{kind}“ dokumentiert, und im Team ist niemand aus der Anästhesie.',
  'sedation.after': '„{drug}“ wurde um {time} gegeben, nach dem Ende der Sedierung um {end}.',
  'sedation.before': '„{drug}“ wurde um {time} gegeben, lange vor dem Beginn der Sedierung um {start}.',
  'calculation.egfr-bedside': 'Geschätzte Filtrationsrate eines Kindes (Schwartz, vereinfacht)',
  'rule.egfr-bedside': '0,413 × Größe in cm ÷ Kreatinin in mg/dL, für enzymatisch bestimmtes Kreatinin',
  'rule.egfr-bedside.method':
    '0,413 × Größe in cm ÷ Kreatinin in mg/dL, für enzymatisch bestimmtes Kreatinin; die Methode dieses Werts ist nicht dokumentiert',
  'input.height': 'Größe',
  'why.no-height': 'keine Größe ist dokumentiert',
  'why.infant': 'die Formel gilt für Kinder ab {n} Jahr',
};
