import { cut, USUAL_COLUMNS } from './fill.js';
import { shown } from './shown.js';

/** What takes less than this is not worth a word. */
const PATIENCE_MS = 1000;

/** Says on a terminal what is being done, once that takes longer than a second; the line goes when anything else is written. */
export interface Progress {
  say(doing: string): void;
  clear(): void;
}

/** @param write to standard error, where that is a terminal */
export function progressOn(
  write: (text: string) => void,
  columns: number = USUAL_COLUMNS,
  now: () => number = Date.now,
): Progress {
  const started = now();
  let doing = '';
  let drawn = false;
  let timer: NodeJS.Timeout | undefined;
  const draw = () => {
    // Text beside a colour: the cursor goes back to the beginning, and the rest of the line is emptied.
    write(`\r\u001b[K${cut(`${shown(doing)} …`, columns - 1)}`);
    drawn = true;
  };
  const stop = () => {
    if (timer) clearTimeout(timer);
    timer = undefined;
  };
  return {
    say: text => {
      doing = text;
      stop();
      const left = started + PATIENCE_MS - now();
      if (left <= 0) draw();
      else {
        timer = setTimeout(draw, left);
        timer.unref();
      }
    },
    clear: () => {
      stop();
      if (drawn) write('\r\u001b[K');
      drawn = false;
    },
  };
}
