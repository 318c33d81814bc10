/** The entries of a field that says `none` or has a list: none said and nothing recorded both give no entries. */
export function entriesOf<T>(field: 'none' | readonly T[] | undefined): readonly T[] {
  return field === undefined || field === 'none' ? [] : field;
}
