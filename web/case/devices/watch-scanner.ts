import { isLabel, Wedge } from './wedge.js';

const FIELD = 'input, textarea, select, [contenteditable]';

/** Fields that a label may be meant for. */
const FOR_LABELS = '[data-labels]';

/** Listens on the whole page; in a field only to what can be nothing but a label. @returns what ends it. */
export function watchScanner(scanned: (symbol: string) => void): () => void {
  const wedge = new Wedge();
  const listen = (event: KeyboardEvent) => {
    if (event.altKey || event.metaKey || event.isComposing) return;
    const { symbol, busy } = wedge.key(event.key, event.ctrlKey, event.timeStamp);
    if (event.target instanceof Element && event.target.matches(FIELD)) {
      // The page itself may have put the focus there: a label is no amount and no name.
      if (symbol === undefined || !isLabel(symbol) || event.target.matches(FOR_LABELS)) return;
      event.preventDefault();
      event.stopPropagation();
      takeOut(event.target, symbol);
      scanned(symbol);
      return;
    }
    // Enter would press the button that has the focus, and so would a blank.
    if (busy) event.preventDefault();
    if (symbol !== undefined) {
      event.stopPropagation();
      scanned(symbol);
    }
  };
  addEventListener('keydown', listen, { capture: true });
  return () => removeEventListener('keydown', listen, { capture: true });
}

/** Takes out of a field what a scanner has typed into it; separators type nothing. */
function takeOut(field: Element, symbol: string): void {
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  const typed = symbol.replaceAll('\u001d', '');
  const at = field.value.lastIndexOf(typed);
  if (at < 0) return;
  field.value = field.value.slice(0, at) + field.value.slice(at + typed.length);
  field.dispatchEvent(new InputEvent('input', { bubbles: true }));
}
