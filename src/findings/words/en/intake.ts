/** The parts of a record that came from sources. */
export const intake = {
  'sources.caption': 'Values taken from a source',
  'column.sourced': 'Value',
  'column.source': 'Source',
  'column.sourceAt': 'Source dated',
  'source.named': '{source} {by}',
  'source.order': 'order',
  'source.kit': 'kit',
  'source.dose report': 'dose report',
  'source.form': 'form',
  'source.scan': 'scan',
  'source.line': 'dictated line',
  'source.earlier case': 'earlier case',
  'source.register': 'register',
} as const;
