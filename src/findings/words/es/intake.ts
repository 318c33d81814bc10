/** Lo que en un registro viene de otras fuentes. */
export const intake = {
  'sources.caption': 'Datos tomados de una fuente',
  'column.sourced': 'Dato',
  'column.source': 'Fuente',
  'column.sourceAt': 'Fecha de la fuente',
  'source.named': '{source} {by}',
  'source.order': 'petición',
  'source.kit': 'juego de material',
  'source.dose report': 'informe de dosis',
  'source.form': 'formulario',
  'source.scan': 'lectura de código',
  'source.line': 'línea dictada',
  'source.earlier case': 'caso anterior',
  'source.register': 'registro',
};
