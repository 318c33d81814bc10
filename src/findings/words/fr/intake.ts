/** Ce qui, dans un dossier, vient d’autres sources. */
export const intake = {
  'sources.caption': 'Données reprises d’une source',
  'column.sourced': 'Donnée',
  'column.source': 'Source',
  'column.sourceAt': 'Date de la source',
  'source.named': '{source} {by}',
  'source.order': 'demande',
  'source.kit': 'set',
  'source.dose report': 'rapport de dose',
  'source.form': 'formulaire',
  'source.scan': 'lecture de code',
  'source.line': 'ligne dictée',
  'source.earlier case': 'intervention antérieure',
  'source.register': 'registre',
};
