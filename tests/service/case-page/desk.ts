import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { Tab } from '../../support/browser.js';
import { openTab } from '../../support/browser.js';
import { type Running, startServe } from '../../support/serve.js';

const root = join(import.meta.dirname, '..', '..', '..');

/** A record as a draft of it reads. */
export interface Draft {
  readonly case?: Readonly<Record<string, string>>;
  readonly events?: readonly Readonly<Record<string, unknown>>[];
  readonly devices?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  readonly [part: string]: unknown;
}

const CATALOGUE = `di,kind,description,maker
09506000117867,guidewire,"hydrophilic, angled tip",Fable Guidewires
`;

/** The service with its case page, as `casetally serve` runs it, and drafts in it. */
export class CaseDesk {
  readonly folder = mkdtempSync(join(tmpdir(), 'case-page-'));
  #service: Running | undefined;
  #port = '0';

  get url(): string {
    return this.#service?.url ?? `http://127.0.0.1:${this.#port}`;
  }

  async start(): Promise<void> {
    if (this.#port === '0') {
      writeFileSync(join(this.folder, 'devices.csv'), CATALOGUE);
      writeFileSync(
        join(this.folder, 'site.yaml'),
        `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
timeZone: Africa/Nairobi
devices: { catalogue: devices.csv }
intake: { kits: ${JSON.stringify(join(root, 'examples', 'kits'))} }
service: { work: { threads: 1 } }
`,
      );
    }
    const args = ['--site', join(this.folder, 'site.yaml'), '--no-auth', '--port', this.#port];
    this.#service = await startServe(args, { CASETALLY_DATA: join(this.folder, 'data') });
    this.#port = new URL(this.#service.url).port;
  }

  async halt(): Promise<void> {
    await this.#service?.stop();
    this.#service = undefined;
  }

  async end(): Promise<void> {
    await this.halt();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async begin(text: string): Promise<string> {
    const answer = await fetch(`${this.url}/v1/drafts`, {
      method: 'POST',
      headers: { 'content-type': 'application/yaml', 'casetally-by': 'Nurse%20Aho' },
      body: text,
    });
    return ((await answer.json()) as { id: string }).id;
  }

  /** Edits as somebody else makes them. */
  async edit(id: string, edits: readonly object[]): Promise<number> {
    const { version } = await this.draft(id);
    const answer = await fetch(`${this.url}/v1/drafts/${id}`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json', 'if-match': `"${version}"` },
      body: JSON.stringify({ batch: crypto.randomUUID(), by: 'Somebody Else', edits }),
    });
    return answer.status;
  }

  async draft(id: string): Promise<{ readonly version: number; readonly text: string }> {
    const answer = await fetch(`${this.url}/v1/drafts/${id}`);
    return (await answer.json()) as { version: number; text: string };
  }

  async record(id: string): Promise<Draft> {
    return (parse((await this.draft(id)).text) as Draft | null) ?? {};
  }

  /** A tab with the case in it. */
  async open(
    id: string,
    { language = 'en-GB', given }: { language?: string; given?: Tab } = {},
  ): Promise<Page> {
    const tab = given ?? (await openTab());
    await tab.size(820, 1180);
    await tab.go(`${this.url}/case?language=${language}`);
    await tab.value(`sessionStorage.setItem('casetally-name', 'Nurse Aho'), location.hash = '${id}'`);
    await tab.until(`document.querySelector('.tray-on-the-table')`, 'the trays');
    await tab.until(`document.querySelector('.views small')?.textContent.trim()`, 'the first check');
    return new Page(tab);
  }
}

/** The page as a hand works it. */
export class Page {
  readonly tab: Tab;

  constructor(tab: Tab) {
    this.tab = tab;
  }

  /** Touches what a selector finds, once nothing on the page moves any more. */
  async touch(selector: string): Promise<void> {
    const { tab } = this;
    await tab.until(`!document.documentElement.hasAttribute('data-settling')`, 'the page to stand still');
    await tab.until(`document.querySelector(${JSON.stringify(selector)})`, selector);
    await tab.click(selector);
  }

  /** Touches the one that an expression finds, once it is there and can be touched. */
  async touchFound(found: string, what: string): Promise<void> {
    await this.tab.until(
      `(one => one && !one.disabled && one.checkVisibility({ contentVisibilityAuto: true }))(${found})`,
      what,
    );
    await this.tab.value(
      `document.querySelectorAll('[data-here]').forEach(one => one.removeAttribute('data-here')), ${found}.setAttribute('data-here', ''), 0`,
    );
    await this.touch('[data-here]');
  }

  /** Touches the button or link with these words on it, in what a selector finds. */
  press(words: string, within = 'body'): Promise<void> {
    const all = ['button', 'summary', 'a'].map(one => `${within} ${one}`).join(', ');
    return this.touchFound(
      `[...document.querySelectorAll(${JSON.stringify(all)})].find(one => !one.disabled &&
        one.textContent.trim().startsWith(${JSON.stringify(words)}) && one.checkVisibility({ contentVisibilityAuto: true }))`,
      `the button '${words}'`,
    );
  }

  /** Keys as a scanner sends them, all at once, to whatever has the focus. */
  scan(symbol: string): Promise<unknown> {
    return this.tab.value(
      `for (const key of [...${JSON.stringify(symbol)}, 'Enter'])
        (document.activeElement ?? document.body).dispatchEvent(
          new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true })), 0`,
    );
  }

  /** Puts the focus into a field and types. */
  async type(selector: string, text: string, then?: string): Promise<void> {
    await this.touch(selector);
    await this.tab.value(`document.querySelector(${JSON.stringify(selector)}).select?.(), 0`);
    await this.tab.paste(text);
    if (then !== undefined) await this.tab.press(then);
  }

  /** What stands in a tray: name of each row. */
  tray(name: string): Promise<readonly string[]> {
    return this.tab.value(
      `[...document.querySelectorAll('.tray-${name.replaceAll(' ', '-')} .name')].map(one => one.textContent)`,
    );
  }

  async until(tray: string, names: readonly string[]): Promise<void> {
    await this.tab.until(
      `JSON.stringify([...document.querySelectorAll('.tray-${tray.replaceAll(' ', '-')} .name')].map(one => one.textContent)) ===
        ${JSON.stringify(JSON.stringify(names))}`,
      `${tray}: ${names.join(', ')}`,
    );
  }

  /** Waits until the service has everything; what was touched a moment ago may not have been sent yet. */
  async saved(): Promise<void> {
    const now = `(one => ({ state: one.className, text: one.textContent }))(document.querySelector('.saving'))`;
    for (let still = 0; still < 3; ) {
      const { state, text } = await this.tab.value<{ state: string; text: string }>(now);
      if (/saving-(?:refused|nobody|missing|closed)/.test(state)) throw new Error(text);
      still = state.includes('saving-saved') ? still + 1 : 0;
      await new Promise(resolve => setTimeout(resolve, 100));
    }
  }

  close(): Promise<void> {
    return this.tab.close();
  }
}

/** A case with a few things on the table. */
export const BEGUN = `casetally: 1
case: { id: HB-0193, date: 2024-03-14, kind: biliary drainage }
patient: { name: Vela Quintanar, birthDate: 1957-08-02 }
devices:
  needle: { kind: access needle, size: 21 G }
  wire: { kind: guidewire, diameter: 0.035 in }
  sheath: { kind: introducer sheath, size: 7 Fr }
  coils: { kind: coil, count: 4 }
`;
