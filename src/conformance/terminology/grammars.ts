/**
 * Code systems that are a grammar or a list kept elsewhere: true or false where the grammar decides,
 * undefined for code systems that this file does not know.
 */
export function grammarVerdict(system: string, code: string): boolean | undefined {
  return grammars[system]?.test(code);
}

const grammars: Readonly<Record<string, RegExp>> = {
  // BCP 47, RFC 5646 section 2.1: language, script, region, variants, extensions, private use.
  'urn:ietf:bcp:47':
    /^(?:(?:[a-z]{2,3}(?:-[a-z]{3}){0,3}|[a-z]{4,8})(?:-[a-z]{4})?(?:-(?:[a-z]{2}|\d{3}))?(?:-(?:[a-z\d]{5,8}|\d[a-z\d]{3}))*(?:-[a-wy-z\d](?:-[a-z\d]{2,8})+)*(?:-x(?:-[a-z\d]{1,8})+)?|x(?:-[a-z\d]{1,8})+|i-[a-z]+)$/i,
  // BCP 13, RFC 6838 section 4.2 with parameters as in RFC 2045 section 5.1.
  'urn:ietf:bcp:13':
    /^[a-z\d][a-z\d!#$&^_.+-]{0,126}\/[a-z\d*][a-z\d!#$&^_.+*-]{0,126}(?:\s*;\s*[a-z\d!#$&^_.+-]+=(?:[^\s;"]+|"[^"]*"))*$/i,
};
