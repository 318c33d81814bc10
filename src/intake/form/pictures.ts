/**
 * FHIR text has no control characters but tab and line ends (R4, string), and a scanned label has: each is written as
 * its picture of the block Control Pictures (U+2400 on), and read as the character again.
 */
export const pictured = (scan: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is replaced
  scan.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, control =>
    String.fromCharCode(0x2400 + control.charCodeAt(0)),
  );

/** The scan again. */
export const scannedFrom = (text: string): string =>
  text.replace(/[\u2400-\u241f]/g, picture => String.fromCharCode(picture.charCodeAt(0) - 0x2400));
