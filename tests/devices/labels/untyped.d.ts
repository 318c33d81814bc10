/** The two barcode libraries that serve as oracles have no types of their own. */
declare module 'bark-js' {
  export default function bark(text: string): { elements: { ai: string; value: string }[] };
}

declare module 'gs1-barcode-parser-mod' {
  export function parseBarcode(text: string): { parsedCodeItems: { ai: string; data: unknown }[] };
}
