/** Größenprüfungen, die nicht möglich waren, und warum. */
export const unsized = {
  'unsized.wireLength': '{device} über {wire}: Drahtlänge',
  'unsized.pressure': '{device}: Fülldruck gegen den Nennberstdruck',
  'unsized.lumen': '{device} durch {host}: Produkt gegen Lumen',
  'unsized.targetDiameter': '{device} gegen den Durchmesser von {target}',
  'unsized.targetLength': '{devices} gegen die Länge von {target}',
  'unsized.ureter': '{device} gegen die gemessene Länge des Harnleiters',
  'unsized.way': '{device}: Schaft gegen den Weg vom Zugang zu {target}',
  'unsized.wireLumen': '{wire} in {tube}: Draht gegen Lumen',
  'unsized.noLength': 'die Länge von {what} ist nicht dokumentiert',
  'unsized.noShaft': 'die Schaftlänge von {what} ist nicht dokumentiert',
  'unsized.noDiameter': 'der Durchmesser von {what} ist nicht dokumentiert',
  'unsized.rapidExchange':
    '{device} ist für den schnellen Wechsel gebaut; sein Drahtlumen ist nicht dokumentiert',
  'unsized.noDepth': 'die Länge im Körper (depth) ist nicht dokumentiert',
  'unsized.noRated': 'der Nennberstdruck ist nicht dokumentiert',
  'unsized.noPressure': 'der Druck ist nicht dokumentiert',
  'unsized.noThickness': 'wie dick {device} beim Einführen ist, ist nicht dokumentiert',
  'unsized.noTakes': 'was durch {host} passt (takes), ist nicht dokumentiert',
  'unsized.noMeasured': 'keine gemessene Länge ist dokumentiert',
  'unsized.noDistance': 'kein Abstand vom Zugang zu {target} ist dokumentiert',
  'unsized.wall':
    'es hängt von der Wand von {tube} ab: weder takesWire noch eine dünne Wand ist dokumentiert',
  'unsized.noGauge': 'für {tube} ist weder takesWire noch eine Stärke der Tabelle dokumentiert',
  'unsized.noWire': 'der größte Draht, den {tube} aufnimmt, ist nicht dokumentiert',
  'unsized.line': '{what}: {because}',
};
