import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';

/** Where Chromium is, when it is installed. */
export const chromium = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly sessionId?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: Record<string, unknown>;
  readonly error?: { readonly message: string };
}

/** A tab of a headless Chromium, worked as a person works it: by mouse and keyboard. */
export interface Tab {
  go(url: string): Promise<void>;
  size(width: number, height: number): Promise<void>;
  /** Whether the reader prefers dark colours. */
  dark(preferred: boolean): Promise<void>;
  /** The value of an expression in the page; promises are waited for. */
  value<T>(expression: string): Promise<T>;
  /** Waits until an expression is true. */
  until(expression: string, what: string): Promise<void>;
  click(selector: string, times?: number): Promise<void>;
  /** Puts text where the focus is, as pasting does. */
  paste(text: string): Promise<void>;
  press(key: string): Promise<void>;
  /** The PNG of the whole page. */
  picture(): Promise<Buffer>;
  /** Serious and critical faults against WCAG 2.2 A and AA by axe-core, and the rules that were met. */
  axe(): Promise<{ readonly faults: readonly string[]; readonly met: readonly string[] }>;
  /** What the page asked for: method and address. */
  readonly requests: readonly { readonly method: string; readonly url: string }[];
  /** What the browser complained of since it was last asked: scripts' errors, refusals of a policy. */
  complaints(): readonly string[];
  close(): Promise<void>;
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const KEYS: Readonly<Record<string, { code: number; text?: string }>> = {
  Tab: { code: 9 },
  Enter: { code: 13, text: '\r' },
  ' ': { code: 32, text: ' ' },
  ArrowDown: { code: 40 },
};

let browser: ReturnType<typeof start> | undefined;

/** One browser for all tests of a thread (Chrome DevTools Protocol over a pipe); it ends when the thread does. */
function start() {
  const folder = mkdtempSync(join(tmpdir(), 'casetally-browser-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }));
  const child = spawn(
    chromium ?? '',
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--hide-scrollbars',
      '--remote-debugging-pipe',
      `--user-data-dir=${folder}`,
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] },
  );
  child.once('close', () => {
    browser = undefined;
  });
  // It keeps nothing from ending.
  child.unref();
  for (const pipe of child.stdio) (pipe as Socket | null)?.unref();
  return wire(child);
}

/** Opens a tab that shares nothing with others: cookies, storage and what was loaded are its own. */
export async function openTab(): Promise<Tab> {
  browser ??= start();
  const { send, listen } = browser;
  const { browserContextId } = await send('Target.createBrowserContext');
  const { targetId } = await send('Target.createTarget', { url: 'about:blank', browserContextId });
  const attached = await send('Target.attachToTarget', { targetId, flatten: true });
  const session = String(attached['sessionId']);
  const tell = (method: string, params: object = {}) => send(method, params, session);

  const requests: { method: string; url: string }[] = [];
  const complaints: string[] = [];
  const unlisten = listen(({ sessionId, method, params = {} }) => {
    if (sessionId !== session) return;
    if (method === 'Network.requestWillBeSent') {
      const request = params['request'] as { method: string; url: string };
      requests.push({ method: request.method, url: request.url });
    }
    // A page with unsaved work asks before it goes; nobody would answer, and the tab would stand still for ever.
    if (method === 'Page.javascriptDialogOpening') void tell('Page.handleJavaScriptDialog', { accept: true });
    if (method === 'Runtime.exceptionThrown') complaints.push(JSON.stringify(params['exceptionDetails']));
    if (method === 'Log.entryAdded') {
      const { level, text } = params['entry'] as { level: string; text: string };
      if (level === 'warning' || level === 'error') complaints.push(text);
    }
  });
  for (const part of ['Page', 'Runtime', 'Network', 'Log']) await tell(`${part}.enable`);

  async function value<T>(expression: string): Promise<T> {
    const answer = await tell('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true });
    if (answer['exceptionDetails'])
      throw new Error(`${expression}: ${JSON.stringify(answer['exceptionDetails'])}`);
    return (answer['result'] as { value: T }).value;
  }
  async function until(expression: string, what: string): Promise<void> {
    const end = Date.now() + 120_000;
    // What cannot be asked yet, since a document or a part of it is not there, is not true yet.
    const asked = `(() => { try { return Boolean(${expression}); } catch { return false; } })()`;
    while (!(await value<boolean>(asked))) {
      if (Date.now() > end) {
        const here = await value<string>('location.href + ": " + document.body.innerText');
        throw new Error(`waited in vain for: ${what}\n${here}`);
      }
      await new Promise(resolve => setTimeout(resolve, 50));
    }
  }

  /** @returns what was hit in place of what was meant */
  async function clickOnce(
    selector: string,
    times: number,
  ): Promise<{ said: string; control: boolean } | null> {
    // Where it is once it stands still, as somebody aims at it; nothing may lie above it.
    const place = await value<{ x: number; y: number; above?: string } | null>(`(async () => {
      const found = document.querySelector(${JSON.stringify(selector)});
      if (!found) return null;
      found.scrollIntoView({ block: 'center' });
      const drawn = () => new Promise(done => requestAnimationFrame(() => setTimeout(done, 30)));
      let box = found.getBoundingClientRect();
      for (let tries = 0; tries < 50; tries += 1) {
        await drawn();
        const now = found.getBoundingClientRect();
        const stands = now.x === box.x && now.y === box.y && now.width === box.width && now.height === box.height;
        box = now;
        if (stands) break;
      }
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const hit = document.elementFromPoint(x, y);
      const hits = hit === null || found.contains(hit) || hit.contains(found);
      window.clicked = undefined;
      window.aimed = found;
      addEventListener('click', event => { window.clicked = event.target; }, { capture: true, once: true });
      return { x, y, ...(!hits && { above: hit.outerHTML.slice(0, 200) }) };
    })()`);
    if (!place) throw new Error(`there is no ${selector}`);
    if (place.above !== undefined) return { said: `${selector} lies under ${place.above}`, control: false };
    for (let clickCount = 1; clickCount <= times; clickCount++)
      for (const type of ['mousePressed', 'mouseReleased'])
        await tell('Input.dispatchMouseEvent', { type, ...place, button: 'left', clickCount });
    return value(`(() => {
      const { aimed, clicked } = window;
      if (!aimed || aimed.contains(clicked)) return null;
      return {
        said: aimed.outerHTML.slice(0, 100) + ' was meant, hit was ' + (clicked?.outerHTML?.slice(0, 100) ?? 'nothing'),
        control: Boolean(clicked?.closest?.('button, a, summary, input, textarea, select')),
      };
    })()`);
  }

  return {
    requests,
    complaints: () => complaints.splice(0),
    value,
    until,
    async go(url) {
      await tell('Page.navigate', { url });
      await until(`document.readyState === 'complete' && !location.href.startsWith('about:')`, url);
    },
    async size(width, height) {
      await tell('Emulation.setDeviceMetricsOverride', {
        width,
        height,
        deviceScaleFactor: 1,
        mobile: false,
      });
    },
    async dark(preferred) {
      const features = [{ name: 'prefers-color-scheme', value: preferred ? 'dark' : 'light' }];
      await tell('Emulation.setEmulatedMedia', { features });
    },
    async click(selector, times = 1) {
      // Whoever misses since the page moved under the hand touches again, unless they hit something else.
      for (let tries = 1; ; tries += 1) {
        const missed = await clickOnce(selector, times);
        if (missed === null) return;
        if (tries === 3 || missed.control) throw new Error(missed.said);
      }
    },
    async paste(text) {
      await tell('Input.insertText', { text });
    },
    async press(key) {
      const { code, text } = KEYS[key] ?? { code: 0 };
      const event = { key, code: key === ' ' ? 'Space' : key, windowsVirtualKeyCode: code };
      await tell('Input.dispatchKeyEvent', { type: 'keyDown', ...event, ...(text && { text }) });
      await tell('Input.dispatchKeyEvent', { type: 'keyUp', ...event });
    },
    async picture() {
      const shot = await tell('Page.captureScreenshot', { format: 'png', captureBeyondViewport: true });
      return Buffer.from(String(shot['data']), 'base64');
    },
    async axe() {
      await value(`${axeSource};0`);
      const text = await value<string>(
        `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(r =>
          JSON.stringify({
            faults: r.violations.filter(v => ['serious', 'critical'].includes(v.impact))
              .map(v => v.id + ' (' + v.impact + '): ' + v.nodes[0].html),
            met: r.passes.map(p => p.id),
          }))`,
      );
      return JSON.parse(text);
    },
    async close() {
      unlisten();
      await send('Target.disposeBrowserContext', { browserContextId });
    },
  };
}

/** Messages over the pipe: JSON with a zero byte after each. */
function wire(child: ChildProcess) {
  const [, , , input, output] = child.stdio as [null, null, null, Writable, Readable];
  const waiting = new Map<number, (message: Message) => void>();
  child.once('close', () => {
    for (const settle of waiting.values()) settle({ error: { message: 'the browser has ended' } });
  });
  const listeners = new Set<(message: Message) => void>();
  let rest = Buffer.alloc(0);
  let last = 0;
  output.on('data', (bytes: Buffer) => {
    rest = Buffer.concat([rest, bytes]);
    for (let end = rest.indexOf(0); end !== -1; end = rest.indexOf(0)) {
      const message: Message = JSON.parse(rest.subarray(0, end).toString('utf8'));
      rest = rest.subarray(end + 1);
      if (message.id === undefined) for (const listener of listeners) listener(message);
      else waiting.get(message.id)?.(message);
    }
  });
  input.on('error', () => undefined);
  const send = (method: string, params: object = {}, sessionId?: string) =>
    new Promise<Record<string, unknown>>((resolve, reject) => {
      const id = ++last;
      waiting.set(id, ({ result, error }) => {
        waiting.delete(id);
        if (error) reject(new Error(`${method}: ${error.message}`));
        else resolve(result ?? {});
      });
      input.write(`${JSON.stringify({ id, method, params, ...(sessionId && { sessionId }) })}\0`);
    });
  const listen = (listener: (message: Message) => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  return { send, listen };
}
