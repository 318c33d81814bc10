import type { Prepared, Reader } from './answers.js';
import { byId } from './element.js';
import { fillFrame, frameDocumentOf } from './report-frame.js';
import { say } from './words.js';

const readers: readonly Reader[] = ['record', 'referrer', 'ward', 'patient'];

const none = byId('no-reports', HTMLElement);
const all = byId('reports', HTMLElement);
const doubt = byId('reports-doubt', HTMLElement);
const refused = byId('no-report', HTMLElement);
const save = byId('save-html', HTMLAnchorElement);
const frame = byId('report', HTMLIFrameElement);
const text = byId('report-text', HTMLTextAreaElement);
const copied = byId('copied', HTMLElement);

let reports: Prepared['reports'] | undefined;
let chosen: Reader = 'record';
let saved: string | undefined;

const frameDocument = frameDocumentOf(frame);

/** Makes the choice of reader work. */
export function startReports(): void {
  for (const reader of readers) {
    const button = byId(`reader-${reader}`, HTMLInputElement);
    // A browser may choose again what was chosen before the page was loaded anew.
    button.checked = reader === chosen;
    button.addEventListener('change', () => {
      chosen = reader;
      void show();
    });
  }
  byId('copy', HTMLButtonElement).addEventListener('click', copy);
  // On paper the whole report stands; on the screen it scrolls in its frame.
  addEventListener('beforeprint', () => {
    const height = frame.contentDocument?.documentElement.scrollHeight;
    if (height !== undefined) frame.style.height = `${height + 4}px`;
  });
  addEventListener('afterprint', () => {
    frame.style.height = '';
  });
}

/** Shows the reports of a case; undefined when there are none. */
export function showReports(prepared: Prepared | undefined): void {
  reports = prepared?.reports;
  none.hidden = prepared !== undefined;
  all.hidden = prepared === undefined;
  doubt.hidden = prepared?.sendable !== false;
  void show();
}

async function show(): Promise<void> {
  copied.textContent = '';
  if (saved !== undefined) URL.revokeObjectURL(saved);
  saved = undefined;
  const report = reports?.[chosen];
  text.value = report?.text ?? '';
  refused.hidden = report !== undefined;
  for (const part of [save, frame, byId('as-text', HTMLElement)]) part.hidden = report === undefined;
  if (report) {
    saved = URL.createObjectURL(new Blob([report.html], { type: 'text/html' }));
    save.href = saved;
    save.download = `${chosen === 'record' ? 'report' : chosen}.html`;
    const [label] = byId(`reader-${chosen}`, HTMLInputElement).labels ?? [];
    frame.title = say('screen.report-for', { reader: label?.textContent ?? chosen });
  }
  const inside = await frameDocument;
  if (report !== reports?.[chosen]) return;
  fillFrame(frame, inside, report?.html ?? '');
}

async function copy(): Promise<void> {
  try {
    await navigator.clipboard.writeText(text.value);
    copied.textContent = say('screen.copied');
  } catch {
    // Without encryption a browser may not let a page copy; a person still can.
    text.focus();
    text.select();
    copied.textContent = say('screen.selected');
  }
}
