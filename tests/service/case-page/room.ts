import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openTab, type Tab } from '../../support/browser.js';
import { program } from '../../support/built.js';
import { exampleText } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';
import { Page } from './desk.js';
import { faultsOf } from './looks.js';

/** A draft as GET /drafts/ID tells of it. */
export interface Told {
  readonly version: number;
  readonly state: string;
  readonly text: string;
  readonly items?: readonly string[];
}

/** Yesterday where the site is: what happened then is over at any hour. */
export const yesterday = (): string =>
  new Intl.DateTimeFormat('sv-SE', { timeZone: 'Africa/Nairobi' }).format(Date.now() - 86_400_000);

/** A whole case of yesterday, as it is before its author signs; what it used has not expired. */
export const unsigned = (): string =>
  exampleText('abscess-drain.yaml')
    .replaceAll('2024-11-07', yesterday())
    .replaceAll('(17)27', '(17)60')
    .replace('status: final', 'status: preliminary')
    .replace(/, signedAt: "12:40"/, '');

/** The same before anybody said what stays. */
export const undecidedEnd = (): string => unsigned().replace(/^left:\n(?: .*\n)+/m, '');

/** The service as a department runs it, with a tab of its case page. */
export class Room {
  readonly folder = mkdtempSync(join(tmpdir(), 'case-room-'));
  readonly #site: string;
  readonly #args: readonly string[];
  #service: Running | undefined;
  #tab: Tab | undefined;
  #port = '0';

  /** @param site more lines of the site configuration */
  constructor(site: string, args: readonly string[] = ['--no-auth']) {
    this.#site = site;
    this.#args = args;
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  get env(): { readonly CASETALLY_DATA: string } {
    return { CASETALLY_DATA: join(this.folder, 'data') };
  }

  get site(): string {
    return join(this.folder, 'site.yaml');
  }

  /** What the service has printed. */
  get log(): readonly string[] {
    return this.#service?.log ?? [];
  }

  get tab(): Tab {
    if (!this.#tab) throw new Error('there is no browser here');
    return this.#tab;
  }

  async start(): Promise<void> {
    if (this.#port === '0') {
      writeFileSync(
        this.site,
        `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
timeZone: Africa/Nairobi
service: { work: { threads: 1 } }
${this.#site}`,
      );
    }
    this.#service = await startServe(['--site', this.site, ...this.#args, '--port', this.#port], this.env);
    this.#port = new URL(this.#service.url).port;
  }

  async halt(): Promise<void> {
    await this.#service?.stop();
    this.#service = undefined;
  }

  /** Ends it as a power cut does. */
  async kill(): Promise<void> {
    await this.#service?.kill();
    this.#service = undefined;
  }

  async end(): Promise<void> {
    await this.#tab?.close();
    await this.halt();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Sends what is due, in a process of its own, until the answer is called. */
  work(): () => Promise<void> {
    const child = spawn(process.execPath, [program, 'outbox', 'work', '--site', this.site], {
      env: { ...process.env, ...this.env },
      stdio: 'ignore',
    });
    const ended = new Promise<void>(resolve => child.once('close', () => resolve()));
    return () => {
      child.kill('SIGTERM');
      return ended;
    };
  }

  async ask<T>(path: string, init: RequestInit = {}): Promise<T> {
    const answer = await fetch(`${this.url}/v1/${path}`, init);
    return (await answer.json()) as T;
  }

  draft(id: string): Promise<Told> {
    return this.ask(`drafts/${id}`);
  }

  async begin(text: string): Promise<string> {
    const headers = { 'content-type': 'application/yaml', 'casetally-by': 'Nurse%20Aho' };
    return (await this.ask<{ id: string }>('drafts', { method: 'POST', headers, body: text })).id;
  }

  /** What somebody else does to a draft: close, sign, discard … */
  async does(id: string, what: string, body: object = {}): Promise<Told> {
    const { version } = await this.draft(id);
    const headers = { 'content-type': 'application/json', 'if-match': `"${version}"` };
    const told = { by: 'Nurse Aho', ...body };
    return this.ask(`drafts/${id}/${what}`, { method: 'POST', headers, body: JSON.stringify(told) });
  }

  /** Opens the page at a fragment, for somebody whose name was typed. */
  async open(fragment = '', { name = 'Nurse Aho', language = 'en-GB' } = {}): Promise<void> {
    this.#tab ??= await openTab();
    await this.tab.size(820, 1180);
    // A page with unsaved work asks before it goes.
    await this.tab.until(
      `!document.querySelector('.saving') || document.querySelector('.saving-saved, .saving-closed')`,
      'everything to be saved',
    );
    // Another document first: from one fragment to the next nothing is loaded anew.
    await this.tab.go(`${this.url}/review`);
    if (name !== '')
      await this.tab.value(`sessionStorage.setItem('casetally-name', ${JSON.stringify(name)}), 0`);
    await this.tab.go(`${this.url}/case?language=${language}${fragment === '' ? '' : `#${fragment}`}`);
  }

  /** Touches what a selector finds, once nothing on the page moves any more. */
  touch(selector: string): Promise<void> {
    return new Page(this.tab).touch(selector);
  }

  /** Touches the button or link with these words on it. */
  press(words: string, within?: string): Promise<void> {
    return new Page(this.tab).press(words, within);
  }

  /** Puts the focus into a field and types. */
  type(selector: string, text: string): Promise<void> {
    return new Page(this.tab).type(selector, text);
  }

  /** Waits until these words stand on the page. */
  async reads(words: string, within = 'body'): Promise<void> {
    await this.tab.until(
      `[...document.querySelectorAll(${JSON.stringify(within)})].some(one => one.innerText.includes(${JSON.stringify(words)}))`,
      `'${words}' in ${within}`,
    );
  }

  /**
   * What the browser complained of, but for one: a library in the thread of the page asks whether it may make code from
   * text, is told no by the policy, and does without.
   */
  complaints(): readonly string[] {
    return this.tab.complaints().filter(one => !one.includes("'script-src' was not explicitly set"));
  }

  text(within: string): Promise<string> {
    return this.tab.value(`document.querySelector(${JSON.stringify(within)})?.innerText ?? ''`);
  }

  /** Faults of the page as it stands. */
  faults(): Promise<readonly string[]> {
    return faultsOf(this.tab);
  }
}
