/** Where the record says what is compared. */
const PATHS: Readonly<Record<string, string>> = {
  birthDate: 'patient.birthDate',
  sex: 'patient.sex',
  name: 'patient.name',
  identifier: 'patient.identifiers',
  identifiers: 'patient.identifiers',
  deceased: 'case.date',
  encounter: 'case.encounter',
  order: 'case.order',
};

/** The path in the record of a field that was compared, such as `order.subject`. */
export function pathOf(field: string): string {
  return PATHS[field] ?? PATHS[field.split('.')[0] ?? ''] ?? 'case';
}
