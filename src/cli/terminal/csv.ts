/** Rows as CSV, a line each. */
export const csv = (rows: readonly (readonly (string | number | undefined)[])[]): string =>
  rows.map(row => `${row.map(value => cell(String(value ?? ''))).join(',')}\n`).join('');

/** A cell of a CSV; one that a spreadsheet would reckon gets an apostrophe, as what stands in it may have been typed by anybody. */
function cell(text: string): string {
  const safe = /^[=+\-@]/.test(text) ? `'${text}` : text;
  return /[",;\t\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
