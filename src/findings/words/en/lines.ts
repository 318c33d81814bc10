/** What makes a spoken or typed line uncertain. */
export const lines = {
  'line.twoFit': "'{said}' fits more than one device: {devices}",
  'line.noFit': "No device on the table fits '{said}'",
  'line.noDevice': "No device is named for '{verb}'",
  'line.recent': 'No device is named; {device} was spoken of last',
  'line.notIn': '{device} is not recorded as inside the patient',
  'line.isIn': '{device} is recorded as already inside the patient',
  'line.noTime': 'The line has no time',
  'line.words': 'Not understood: {words}',
  'line.open': "'{word}' may change what is meant",
  'line.corrected': 'The line corrects itself',
  'line.noAct': 'What was done is not said',
  'line.askBack': "'{word}' leaves open what is to be recorded",
  'line.noDose': 'No dose is given for {drug}',
  'line.noRoute': 'No route is given for {drug}',
  'line.twoActs': 'More than one act in one phrase: {verbs}',
  'line.tooMany': 'There were {there} on the table; {count} are said',
} as const;
