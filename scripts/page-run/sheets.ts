import { parse } from 'yaml';
import { type SheetNode, sheetsIn } from '../../web/case/engine/sheets.js';
import { type Stage, stageNames } from '../../web/case/sheets/stages.js';
import { type Group, group, isGroup, pick, type Tree } from './data.js';
import type { Hand } from './hand.js';

const sheets = sheetsIn('en-GB');

/** What other systems write into a record, and what the page writes by itself. */
const NOT_TYPED: ReadonlySet<string> = new Set([
  'codes',
  'key',
  'identifiers',
  'study',
  'system',
  'identifier',
]);

/** Enters what a record should say and does not yet, sheet by sheet, as somebody would who reads it from a paper. */
export class Sheets {
  readonly #hand: Hand;
  readonly #text: () => Promise<string>;
  /** What the page calls an entry that the record calls otherwise. */
  readonly #names: Map<string, string>;
  /** Places that the page has no field for. */
  readonly left: string[] = [];

  constructor(hand: Hand, text: () => Promise<string>, names: Map<string, string>) {
    this.#hand = hand;
    this.#text = text;
    this.#names = names;
  }

  /** Opens what is entered together. */
  async open(stage: Stage): Promise<void> {
    await this.#hand.press('Record', '.views');
    const button = `.sheet-names .stage:nth-of-type(${stageNames.indexOf(stage) + 1})`;
    await this.#hand.tab.until(`document.querySelector(${JSON.stringify(button)})`, 'the sheets');
    if (
      !(await this.#hand.tab.value<boolean>(`document.querySelector(${JSON.stringify(button)}).ariaCurrent`))
    )
      await this.#hand.tap(button);
    await this.#hand.tab.until(`document.querySelector('.sheet .part')`, 'the parts');
  }

  /** @param only fields of it, in place of all */
  async enter(name: string, whole: Tree, only?: readonly string[]): Promise<void> {
    await this.#hand.saved();
    const wanted = only ? pick(whole, ...only) : whole;
    const now = (parse(await this.#text()) as Group | null)?.[name];
    if (said(now, wanted)) return;
    await this.#put(nodeFor(sheets, name, wanted), name, wanted, now);
  }

  async #put(node: SheetNode, path: string, wanted: Tree, now: Tree | undefined): Promise<void> {
    if (said(now, wanted) || NOT_TYPED.has(node.name)) return;
    if (node.kind === 'none') {
      const none = `[...document.querySelectorAll('.sheet .none-button')].find(one => one.textContent === ${JSON.stringify(`None (${node.label})`)})`;
      await this.#unfold(none, path);
      return this.#hand.tapFound(none, path);
    }
    if (node.kind === 'list' && Array.isArray(wanted)) return this.#entries(node, path, wanted, now);
    if (node.kind === 'keyed' && isGroup(wanted)) return this.#keyed(node, path, wanted, now);
    if (isGroup(wanted) && node.kind === 'group') {
      const names = Object.keys(wanted).filter(name => !NOT_TYPED.has(name));
      if (node.short !== undefined && names.every(name => name === node.short))
        return this.#field(
          node.children.find(({ name }) => name === node.short) ?? node,
          path,
          wanted[node.short],
        );
      for (const name of names) {
        const part = wanted[name];
        const child = part === undefined ? undefined : nodeFor(node.children, name, part, true);
        if (child && part !== undefined)
          await this.#put(child, `${path}.${name}`, part, isGroup(now) ? now[name] : undefined);
        else this.left.push(`${path}.${name}`);
      }
      return;
    }
    return this.#field(node, path, isGroup(wanted) ? wanted['text'] : wanted);
  }

  async #entries(
    node: SheetNode,
    path: string,
    wanted: readonly Tree[],
    now: Tree | undefined,
  ): Promise<void> {
    const there = Array.isArray(now) ? now.length : 0;
    let added = 0;
    for (const entry of wanted) {
      if (Array.isArray(now) && now.some(one => said(one, entry))) continue;
      if (await this.#proposed(path, entry)) {
        added += 1;
        continue;
      }
      await this.#add(node, path);
      const at = `${path}[${there + added}]`;
      added += 1;
      await this.#hand.tab.until(
        `document.querySelector(${JSON.stringify(`[data-path="${at}"] .row-more`)})`,
        at,
      );
      if (isGroup(entry) && typeof entry['key'] === 'string') await this.#named(at, entry['key']);
      await this.#put({ ...node, kind: 'group' }, at, isGroup(entry) ? entry : { text: entry }, undefined);
    }
  }

  /** Takes over what a kit proposes, where it says the same. */
  async #proposed(path: string, entry: Tree): Promise<boolean> {
    const words = JSON.stringify(
      isGroup(entry) ? `${group(entry)['do'] ?? group(entry)['drug'] ?? ''}` : `${entry}`,
    );
    const row = `[...document.querySelectorAll('.sheet [data-path="${path}"] > .proposals li')].find(one => ${words} !== '""' && one.textContent.includes(${words}))?.querySelector('.take')`;
    if (!(await this.#hand.tab.value<boolean>(`Boolean(${row})`))) return false;
    await this.#hand.tapFound(row, `what is proposed for ${path}`);
    await this.#hand.saved();
    return true;
  }

  async #keyed(node: SheetNode, path: string, wanted: Group, now: Tree | undefined): Promise<void> {
    for (const [key, entry] of Object.entries(wanted)) {
      if (isGroup(now) && Object.values(now).some(one => said(one, entry))) continue;
      const before = Object.keys(isGroup(now) ? now : {}).length;
      await this.#add(node, path);
      const open = `document.querySelector('.sheet [data-path="${path}"] .entry:has(.row-more)')`;
      await this.#hand.tab.until(open, `${path} ${before}`);
      const at = await this.#hand.tab.value<string>(`${open}.dataset.path`);
      this.#names.set(key, at.slice(at.lastIndexOf('.') + 1));
      await this.#put({ ...node, kind: 'group' }, at, entry, undefined);
    }
  }

  async #add(node: SheetNode, path: string): Promise<void> {
    const add = `[...document.querySelectorAll('.sheet [data-path=${JSON.stringify(path)}] > button, .sheet [data-path=${JSON.stringify(path)}].entries > button')]
      .find(one => one.textContent === ${JSON.stringify(`Add: ${node.label}`)})`;
    await this.#unfold(add, path);
    await this.#hand.tapFound(add, `another of ${path}`);
  }

  /** The key that the page gave a new entry. */
  async #named(at: string, key: string): Promise<void> {
    await this.#hand.saved();
    const [list = '', index = ''] = at.split(/[[\]]/);
    const entry = (parse(await this.#text()) as Record<string, Group[]>)[list]?.[Number(index)];
    if (entry && typeof entry['key'] === 'string') this.#names.set(key, entry['key']);
  }

  #field(node: SheetNode, path: string, wanted: Tree | undefined): Promise<void> {
    return wanted === undefined
      ? Promise.resolve()
      : this.fill(node, `[data-path=${JSON.stringify(path)}]`, path, wanted);
  }

  /** Fills in one field. @param place selects what holds it */
  async fill(node: SheetNode, place: string, path: string, wanted: Tree): Promise<void> {
    const { tab } = this.#hand;
    await tab.until(`document.querySelector(${JSON.stringify(place)})`, path);
    await this.#unfold(`document.querySelector(${JSON.stringify(place)})`, path);
    const values = (Array.isArray(wanted) ? wanted : [wanted]).map(one => `${one as string}`);
    for (const value of values) {
      if (node.moment || node.name === 'at' || /^\d{4}-\d\d-\d\dT/.test(value)) {
        if (await this.#hasButton(place, 'Now')) {
          await this.#hand.press('Now', place);
          continue;
        }
      }
      const words = this.#wordsFor(node, value);
      let pressed = false;
      for (const word of words)
        if (await this.#hasButton(place, word)) {
          await this.#hand.tapFound(exact(place, word), word);
          pressed = true;
          break;
        }
      if (pressed) continue;
      if (node.refers || node.kind === 'yes-no') {
        this.left.push(path);
        continue;
      }
      if (await this.#proposed(path, value)) continue;
      if (!(await this.#hasFocus(place))) await this.#hand.tap(`${place} input, ${place} textarea`);
      await this.#hand.speak(Array.isArray(wanted) ? values.join('\n') : value);
      break;
    }
  }

  /** What lies under a heading that is folded has to be opened first. */
  async #unfold(found: string, what: string): Promise<void> {
    for (;;) {
      const folded = `[...document.querySelectorAll('details:not([open])')].find(one =>
        one.contains(${found}) && one.querySelector('summary').checkVisibility())?.querySelector('summary')`;
      if (!(await this.#hand.tab.value<boolean>(`Boolean(${folded})`))) return;
      // What the check of the case says moves what lies below it.
      await this.#hand.saved();
      await new Promise(resolve => setTimeout(resolve, 1_200));
      await this.#hand.tapFound(folded, `what holds ${what}`);
      await new Promise(resolve => setTimeout(resolve, 50));
    }
  }

  /** What a button for a value may say. */
  #wordsFor(node: SheetNode, value: string): readonly string[] {
    if (node.refers) return [this.#names.get(`name of ${value}`) ?? '', this.#names.get(value) ?? '', value];
    const yes = { true: 'Yes', yes: 'Yes', false: 'No', no: 'No' }[value];
    return [node.words?.find(({ word }) => word === value)?.said ?? yes ?? value];
  }

  /** A field that the page itself gave the focus needs no touch. */
  #hasFocus(place: string): Promise<boolean> {
    return this.#hand.tab.value<boolean>(
      `document.activeElement?.matches('input, textarea') && Boolean(document.activeElement.closest(${JSON.stringify(place)}))`,
    );
  }

  #hasButton(place: string, words: string): Promise<boolean> {
    return this.#hand.tab.value<boolean>(`Boolean(${exact(place, words)})`);
  }
}

const exact = (place: string, words: string) =>
  `[...document.querySelectorAll(${JSON.stringify(`${place} button`)})].find(one =>
    (one.firstChild?.textContent ?? '').trim().toLowerCase() === ${JSON.stringify(words.toLowerCase())})`;

/** The field that a value goes into: the schema may have two of one name, for `none` and for entries. */
function nodeFor(nodes: readonly SheetNode[], name: string, value: Tree, may: true): SheetNode | undefined;
function nodeFor(nodes: readonly SheetNode[], name: string, value: Tree): SheetNode;
function nodeFor(nodes: readonly SheetNode[], name: string, value: Tree, may = false): SheetNode | undefined {
  const own = nodes.filter(node => node.name === name);
  const found = own.find(({ kind }) => (kind === 'none') === (value === 'none')) ?? own[0];
  if (!found && !may) throw new Error(`no sheet is called ${name}`);
  return found;
}

/** True where everything that is wanted is there, whatever else is; keys and codes apart. */
export function said(now: Tree | undefined, wanted: Tree): boolean {
  if (now === undefined) return false;
  if (Array.isArray(wanted)) {
    if (!Array.isArray(now)) return false;
    return wanted.every(one => now.some(other => said(other, one)));
  }
  if (isGroup(wanted)) {
    const names = Object.keys(wanted).filter(name => !NOT_TYPED.has(name));
    if (!isGroup(now)) return names.length === 1 && said(now, wanted[names[0] ?? ''] ?? '');
    return names.every(name => said(now[name], wanted[name] ?? ''));
  }
  const [stands, meant] = [`${isGroup(now) ? (now['text'] as string) : (now as string)}`, `${wanted}`];
  // Of a case of today the times are others than those of the example.
  return plain(stands) === plain(meant) || (TIME.test(stands) && TIME.test(meant));
}

const TIME = /^(?:\d{4}-\d\d-\d\dT)?\d\d:\d\d/;

/** As laboratories and people write the same unit. */
const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[x×]10[⁹^]?9?\/l/g, '10*9/l')
    .replaceAll('µ', 'u');
