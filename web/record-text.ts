import { byId, element } from './element.js';
import { say } from './words.js';

const field = byId('record', HTMLTextAreaElement);
const file = byId('file', HTMLInputElement);
const place = byId('place', HTMLElement);

/** Larger files are no case records: the service takes none of that size. */
const LARGEST = 1_000_000;

export const recordText = (): string => field.value;

/** A button that leads to a line of the record. */
export function lineButton(line: number): HTMLElement {
  const label = say('screen.go-to-line', { line });
  const button = element(
    'button',
    { type: 'button', class: 'line', 'aria-label': label },
    say('screen.line', { line }),
  );
  button.addEventListener('click', () => goToLine(line));
  return button;
}

/** Puts the cursor on a line, counted from 1, and brings it into sight. */
function goToLine(line: number): void {
  const before = field.value.split('\n').slice(0, line - 1);
  const start = before.reduce((sum, text) => sum + text.length + 1, 0);
  const end = field.value.indexOf('\n', start);
  field.focus();
  field.setSelectionRange(start, end === -1 ? field.value.length : end);
  // Lines do not wrap, so all have the same height.
  const height = Number.parseFloat(getComputedStyle(field).lineHeight);
  field.scrollTop = Math.max(0, (line - 1) * height - field.clientHeight / 3);
  field.scrollLeft = 0;
  field.scrollIntoView({ block: 'nearest' });
  tellPlace();
}

/** Calls back when the text is another, and with what is to be said of a file. */
export function watchRecord(changed: () => void, tell: (text: string) => void): void {
  tellPlace();
  field.addEventListener('input', changed);
  document.addEventListener('selectionchange', tellPlace);
  file.addEventListener('change', async () => {
    const [chosen] = file.files ?? [];
    if (!chosen) return;
    const text = chosen.size > LARGEST ? undefined : utf8(await chosen.arrayBuffer());
    if (text === undefined) {
      tell(say('screen.file-refused', { file: chosen.name, size: LARGEST / 1_000_000 }));
    } else {
      field.value = text;
      field.setSelectionRange(0, 0);
      field.scrollTop = 0;
      tell(say('screen.file-opened', { file: chosen.name }));
      changed();
    }
    // So that the same file can be opened again after it was corrected elsewhere.
    file.value = '';
  });
}

function utf8(bytes: ArrayBuffer): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function tellPlace(): void {
  const before = field.value.slice(0, field.selectionStart).split('\n');
  place.textContent = say('screen.place', {
    line: before.length,
    column: (before.at(-1)?.length ?? 0) + 1,
  });
}
