/** Was in einer Akte aus anderen Quellen stammt. */
export const intake = {
  'sources.caption': 'Aus einer Quelle übernommene Angaben',
  'column.sourced': 'Angabe',
  'column.source': 'Quelle',
  'column.sourceAt': 'Stand der Quelle',
  'source.named': '{source} {by}',
  'source.order': 'Auftrag',
  'source.kit': 'Set',
  'source.dose report': 'Dosisbericht',
  'source.form': 'Formular',
  'source.scan': 'Scan',
  'source.line': 'diktierte Zeile',
  'source.earlier case': 'früherer Fall',
  'source.register': 'Register',
};
