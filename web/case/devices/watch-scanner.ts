import { Wedge } from './wedge.js';

const FIELD = 'input, textarea, select, [contenteditable]';

/** Listens on the whole page outside of fields. @returns what ends it. */
export function watchScanner(scanned: (symbol: string) => void): () => void {
  const wedge = new Wedge();
  const listen = (event: KeyboardEvent) => {
    if (event.target instanceof Element && event.target.matches(FIELD)) return;
    if (event.altKey || event.metaKey || event.isComposing) return;
    const { symbol, busy } = wedge.key(event.key, event.ctrlKey, event.timeStamp);
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
