/** Characters that XML 1.0 does not allow, lone surrogates among them. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that must not stay
const NOT_XML = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu;

/** Text made safe inside an XHTML element or attribute. */
function escapeXml(text: string): string {
  return text
    .replace(NOT_XML, '\ufffd')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}

/** A narrative `div` with one paragraph a line; blank lines fall away. */
export function divOf(lines: readonly string[]): string {
  const paragraphs = lines.filter(line => line.trim() !== '').map(line => `<p>${escapeXml(line)}</p>`);
  return `<div xmlns="http://www.w3.org/1999/xhtml">${paragraphs.join('')}</div>`;
}
