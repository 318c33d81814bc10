import { byId } from './element.js';
import { say } from './words.js';

/** Files that go with the record: earlier versions that were sent, and pictures that it names. */
export interface Companions {
  readonly previous: readonly File[];
  readonly pictures: readonly File[];
}

const previous = byId('previous', HTMLInputElement);
const pictures = byId('pictures', HTMLInputElement);
const chosen = byId('chosen', HTMLElement);

let current: Companions = { previous: [], pictures: [] };

/** What is chosen now; another object after each change. */
export const companions = (): Companions => current;

/** Calls back when other files are chosen. */
export function watchCompanions(changed: () => void): void {
  const take = () => {
    current = { previous: [...(previous.files ?? [])], pictures: [...(pictures.files ?? [])] };
    const names = [...current.previous, ...current.pictures].map(({ name }) => name);
    chosen.textContent =
      names.length === 0 ? say('screen.none-chosen') : say('screen.chosen', { files: names.join(', ') });
    changed();
  };
  previous.addEventListener('change', take);
  pictures.addEventListener('change', take);
  byId('alone', HTMLButtonElement).addEventListener('click', () => {
    previous.value = '';
    pictures.value = '';
    take();
  });
}

/** The body of a request: the record alone, or in parts with what goes with it. */
export function bodyOf(record: string, { previous: older, pictures: shown }: Companions): string | FormData {
  if (older.length + shown.length === 0) return record;
  const parts = new FormData();
  parts.append('case', new Blob([record]));
  for (const file of older) parts.append('previous', file);
  for (const file of shown) parts.append('picture', file, file.name);
  return parts;
}
