/** Words of figures that cannot be right, of doses, sedation and limits, in English. */
export const doses = {
  'unlikely.value': '{what} of {value} cannot be right: {range} is possible.{would}',
  'unlikely.index':
    'Weight {weight} and height {height} give a body mass index of {index}, outside {least} to {most}: one of them cannot be right.',
  'unlikely.decimal':
    '{what} of {value} has a decimal, and platelets are counted in whole numbers: {would} would fit.',
  'range.amounts': '{least} to {most}',
  'anaesthetic.alone': "'{drug}' {dose} mg is {perKg} mg/kg, above {limit} mg/kg.",
  'anaesthetic.together': 'Local anaesthetics together ({drugs}) reach {percent} % of their limits.',
  'anaesthetic.share': '{drug} {percent} %',
  'contrast.most': 'for anyone',
  'contrast.creatinine': '{factor} mL/kg over creatinine in mg/dL',
  'contrast.child': '{factor} mL/kg of a child',
  'weight.child': "A child was given '{drug}' {dose}, and no weight is recorded.",
  'weight.dose': "'{drug}' {dose} is dosed by weight, and no weight is recorded.",
  'slip.short': 'The scan was short, or one of them is ten times off.',
  'sedation.drug': "Sedation is recorded as '{kind}', and '{drug}' was given at {time}.",
  'sedation.relaxant': "Sedation is recorded as '{kind}', and the muscle relaxant '{drug}' was given.",
  'sedation.by': "Sedation is recorded as '{kind}', given by {name} ({role}), who is no anaesthetist.",
  'sedation.told': "Sedation is recorded as '{kind}'; the text says '{text}'.",
  'sedation.nobody': "Sedation is recorded as '{kind}', and no anaesthetist is in the team.",
  'sedation.after': "'{drug}' was given at {time}, after the end of sedation at {end}.",
  'sedation.before': "'{drug}' was given at {time}, long before the start of sedation at {start}.",
  'calculation.egfr-bedside': 'Estimated filtration rate of a child (bedside Schwartz)',
  'rule.egfr-bedside': '0.413 × height in cm ÷ Scr in mg/dL, for creatinine by an enzymatic method',
  'rule.egfr-bedside.method':
    '0.413 × height in cm ÷ Scr in mg/dL, for creatinine by an enzymatic method; the method of this value is not recorded',
  'input.height': 'Height',
  'why.no-height': 'no height is recorded',
  'why.infant': 'the equation is for children from {n} year of age',
} as const;
