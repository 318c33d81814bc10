/**
 * Code systems that are a grammar or a list kept elsewhere: true or false where the grammar decides,
 * undefined for code systems that this file does not know.
 */
export function grammarVerdict(system: string, code: string): boolean | undefined {
  const fits = grammars[system]?.test(code);
  return fits && system === 'urn:ietf:bcp:47' ? registered(code) : fits;
}

/** Whether the two-letter subtags for language and region are registered, as the runtime's tables know them. */
function registered(tag: string): boolean {
  const [language = '', ...rest] = tag.split('-');
  if (language.length === 2 && nameOf('language', language) === undefined) return false;
  const region = rest.find(part => part.length === 2);
  const single = rest.findIndex(part => part.length === 1);
  if (region === undefined || (single >= 0 && rest.indexOf(region) > single)) return true;
  return nameOf('region', region.toUpperCase()) !== undefined;
}

/** The runtime's table of names, read at the first question. */
const names = new Map<'language' | 'region', Intl.DisplayNames>();

function nameOf(type: 'language' | 'region', code: string): string | undefined {
  const table = names.get(type) ?? new Intl.DisplayNames(['en'], { type, fallback: 'none' });
  names.set(type, table);
  return table.of(code);
}

const grammars: Readonly<Record<string, RegExp>> = {
  // BCP 47, RFC 5646 section 2.1: language, script, region, variants, extensions, private use.
  'urn:ietf:bcp:47':
    /^(?:(?:[a-z]{2,3}(?:-[a-z]{3}){0,3}|[a-z]{4,8})(?:-[a-z]{4})?(?:-(?:[a-z]{2}|\d{3}))?(?:-(?:[a-z\d]{5,8}|\d[a-z\d]{3}))*(?:-[a-wy-z\d](?:-[a-z\d]{2,8})+)*(?:-x(?:-[a-z\d]{1,8})+)?|x(?:-[a-z\d]{1,8})+|i-[a-z]+)$/i,
  // BCP 13, RFC 6838 section 4.2 with parameters as in RFC 2045 section 5.1.
  'urn:ietf:bcp:13':
    /^[a-z\d][a-z\d!#$&^_.+-]{0,126}\/[a-z\d*][a-z\d!#$&^_.+*-]{0,126}(?:\s*;\s*[a-z\d!#$&^_.+-]+=(?:[^\s;"]+|"[^"]*"))*$/i,
};
