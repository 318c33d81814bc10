import { parse } from 'yaml';
import type { Tab } from '../../tests/support/browser.js';
import { type Group, group, list, pick, type Tree, without } from './data.js';
import type { DoseFile } from './dose.js';
import { touch } from './events.js';
import { type Done, Hand, less } from './hand.js';
import { Sheets, said } from './sheets.js';

export interface Outcome {
  readonly parts: readonly { readonly part: string; readonly done: Done }[];
  readonly total: Done;
  /** Seconds that the run itself took. */
  readonly seconds: number;
  /** Places of the example that were not entered. */
  readonly left: readonly string[];
}

/** What is not entered by hand: other systems have it, or it happens after the case. */
const ELSEWHERE: Readonly<Record<string, readonly string[]>> = {
  case: ['accession', 'order', 'encounter', 'date', 'timeZone', 'organization', 'session'],
  patient: ['identifiers'],
  before: ['fasting', 'earlierAttempts'],
};

/** Parts that are entered before the puncture. */
const BEFORE = [
  ...['case', 'patient', 'team', 'indication', 'before', 'sedation', 'access', 'targets', 'drugs'],
];

/** What is said when it is so, by the touch of a button or at the end. */
const LATER: Readonly<Record<string, readonly string[]>> = {
  case: ['status', 'started', 'ended'],
  before: ['checklist'],
};

/** Speaks all drugs as one line; what the page proposes is taken over. @returns false where it is not certain of it */
async function speakDrugs(hand: Hand, drugs: readonly Group[]): Promise<boolean> {
  const { tab } = hand;
  const said = drugs.map(drug => {
    const text = (name: string) => (drug[name] === undefined ? '' : `${drug[name] as string}`);
    const purpose = drug['for'] === undefined ? '' : `for ${text('for')}`;
    return [
      text('drug').toLowerCase(),
      text('strength').replace(' ', ''),
      text('dose'),
      text('route'),
      purpose,
    ]
      .filter(word => word !== '')
      .join(' ');
  });
  await hand.tap('#line');
  await hand.speak(said.join(', '));
  await hand.key('Enter');
  await tab.until(`document.querySelector('.proposed')`, 'a proposal');
  const certain = await tab.value<boolean>(
    `!document.querySelector('.proposed.uncertain') && Boolean(document.querySelector('.proposed .main'))`,
  );
  await hand.tap(certain ? '.proposed .main' : '.proposed .offers button:last-child');
  await tab.until(`!document.querySelector('.proposed')`, 'the line to be taken over');
  return certain;
}

/** Says that one of the times of the case is now. */
const moment = (hand: Hand, path: string) => hand.tap(`[data-moment="${path}"]`);

/** Enters an example as a case of today, from the first screen to its receipt. */
async function beginFrom(hand: Hand, { order, kit }: Sources): Promise<void> {
  const { tab } = hand;
  await hand.press('Begin from an order or a kit');
  await hand.tap('#order');
  // The number is a barcode on the order.
  await hand.scanInto(order);
  await hand.press(kit, '.from-order');
  await hand.press('Begin with these');
  await tab.until(
    `location.hash || [...document.querySelectorAll('button')].some(one => one.textContent.startsWith('Begin with what was found'))`,
    'a case',
  );
  if (!(await tab.value<string>('location.hash'))) await hand.press('Begin with what was found');
}

/** Chooses the dose report among files: the field, the file, and that it is taken over. */
async function takeDose(hand: Hand, { bytes }: DoseFile): Promise<void> {
  const { tab } = hand;
  const text = Buffer.from(bytes).toString('base64');
  await hand.choose(`(() => {
    const bytes = Uint8Array.from(atob('${text}'), sign => sign.charCodeAt(0));
    const files = new DataTransfer();
    files.items.add(new File([bytes], 'dose.dcm'));
    document.querySelector('.dose-file').dispatchEvent(
      new DragEvent('drop', { dataTransfer: files, bubbles: true, cancelable: true }));
  })()`);
  await tab.until(`document.querySelector('.dose-file .main')`, 'what the dose report says');
  await hand.press('Take over', '.dose-file');
  await hand.saved();
}

/** What a case begins from; empty where nothing is given. */
export interface Sources {
  readonly order: string;
  /** What the kit of the department for this kind of case is called. */
  readonly kit: string;
  readonly dose?: DoseFile | undefined;
}

/** Enters an example as a case of today, from the first screen to its receipt. */
export async function enterCase(
  tab: Tab,
  url: string,
  wanted: Group,
  sources: Sources | undefined,
): Promise<Outcome> {
  const started = performance.now();
  const hand = new Hand(tab);
  const parts: { part: string; done: Done }[] = [];
  let before = hand.done;
  const part = (name: string) => {
    parts.push({ part: name, done: less(hand.done, before) });
    before = hand.done;
  };
  const author = `${list(wanted['team']).find(one => one['key'] === group(wanted['report'])['author'])?.['name']}`;

  await tab.go(`${url}/review`);
  await tab.value(`sessionStorage.setItem('casetally-name', ${JSON.stringify(author)}), 0`);
  await tab.go(`${url}/case`);
  await tab.until(`document.querySelector('.home .begin')`, 'the cases');
  if (sources) await beginFrom(hand, sources);
  else {
    await hand.tap('.home .begin');
    await tab.until('location.hash', 'a case');
  }
  await tab.until(`document.querySelector('.views')`, 'the case');
  const id = (await tab.value<string>('location.hash')).slice(1);
  const text = async () => ((await (await fetch(`${url}/v1/drafts/${id}`)).json()) as { text: string }).text;
  const names = new Map<string, string>(
    list(wanted['team']).map(one => [`name of ${one['key']}`, `${one['name']}`]),
  );
  const sheets = new Sheets(hand, text, names);
  part('beginning');

  // Devices: each has a label; what comes without one is added by its name.
  for (const [key, device] of Object.entries(group(wanted['devices']))) {
    const { label, udi, lot, carried, kind } = group(device);
    const there = Object.entries(group(group(parse(await text()) as Group)['devices'])).find(
      ([one, entry]) =>
        ![...names.values()].includes(one) &&
        group(entry)['kind'] === kind &&
        (carried === undefined ? label === undefined : group(entry)['carried'] !== undefined),
    );
    if (there) {
      // The order says that it is inside, or it lies in the kit and has no label of its own.
      names.set(key, there[0]);
      continue;
    }
    const had = new Set(Object.keys(group((parse(await text()) as Group | null)?.['devices'])));
    const symbol =
      label ??
      (udi === undefined
        ? undefined
        : `(01)${`${udi as string}`.padStart(14, '0')}${lot === undefined ? '' : `(10)${lot as string}`}`);
    if (symbol === undefined || carried !== undefined) {
      // It came in the pack of another and has no label of its own.
      await hand.press('Add by name');
      await hand.tap('#add-device');
      await hand.speak(`${group(device)['kind'] as string}`);
      await hand.key('Enter');
      await tab.until(
        `document.querySelectorAll('.row').length > 0 && document.querySelector('#add-device').value === ''`,
        `${key} on the table`,
      );
      await hand.press('Add by name');
    } else {
      const status = `document.querySelector('.scanned [role="status"]')?.textContent ?? ''`;
      const was = await tab.value<string>(status);
      await hand.scan(`${symbol as string}`);
      await tab.until(`(${status}) !== ${JSON.stringify(was)}`, `an answer to ${key}`);
      await hand.saved();
      for (let n = 1; n < Number(group(device)['count'] ?? 1); n += 1) {
        await hand.scan(`${symbol as string}`);
        await hand.press('One more', '.scanned');
      }
    }
    await hand.saved();
    const now = group((parse(await text()) as Group)['devices']);
    const scanned = Object.entries(now).find(
      ([one, entry]) => !had.has(one) || (symbol !== undefined && group(entry)['label'] === symbol),
    );
    if (!scanned) throw new Error(`${key} is not on the table`);
    names.set(key, scanned[0]);
    if (carried !== undefined) {
      const row = `.row[data-device=${JSON.stringify(scanned[0])}]`;
      await hand.tap(`${row} .row-open`);
      await hand.tap(`${row} [data-carried]`);
      await hand.saved();
    }
  }
  part('devices');

  const given = list(wanted['drugs']);
  const certain = given.length === 0 || (await speakDrugs(hand, given));
  await moment(hand, 'before.checklist.signIn');
  await moment(hand, 'before.checklist.timeOut');
  await moment(hand, 'case.started');
  await sheets.open('before');
  for (const name of BEFORE) {
    const value = name === 'drugs' && certain ? given.map(one => without(one, ['by'])) : wanted[name];
    if (value === undefined) continue;
    if (name === 'patient' && !sources) {
      await sheets.enter(name, value);
      await hand.press('Add: Identifiers', '.sheet');
      for (const field of ['system', 'value']) {
        await hand.tap(`[data-path="patient.identifiers[0].${field}"] input`);
        await hand.speak(`${list(group(value)['identifiers'])[0]?.[field]}`);
      }
      continue;
    }
    if (name === 'team' && (await tab.value<boolean>(`Boolean(document.querySelector('.same-team'))`)))
      await hand.tap('.same-team');
    await sheets.enter(name, without(value, [...(ELSEWHERE[name] ?? []), ...(LATER[name] ?? [])]));
  }
  part('before the case');

  await hand.press('Devices', '.views');
  const kindOf = (key: string, name: string) =>
    `${group(group(group(group(wanted['devices'])[key])['parts'])[name])['kind']}`;
  for (const [index, event] of list(wanted['events']).entries()) {
    if (event['device'] === undefined) {
      sheets.left.push(`events[${index}]`);
      continue;
    }
    const keyOf = (key: string) => names.get(key) ?? key;
    const unsaid = await touch(hand, sheets, event, keyOf, kindOf);
    // What goes in with it is touched by itself.
    for (const device of Array.isArray(event['with']) ? event['with'] : []) {
      await hand.saved();
      await touch(hand, sheets, { ...pick(event, 'do', 'over', 'through'), device }, keyOf, kindOf);
    }
    sheets.left.push(...unsaid.map(name => `events[${index}].${name}`));
    await hand.saved();
  }
  part('events');

  await hand.press('Devices', '.views');
  await moment(hand, 'case.ended');
  await moment(hand, 'before.checklist.signOut');
  await sheets.open('end');
  await sheets.enter('case', wanted['case'] ?? {}, ['status']);
  if (sources?.dose) await takeDose(hand, sources.dose);
  for (const name of [
    'contrast',
    'radiation',
    'specimens',
    'complications',
    'findings',
    'outcome',
    'conclusion',
    'advice',
    'aftercare',
  ]) {
    const value = wanted[name];
    if (value === undefined) continue;
    await sheets.enter(
      name,
      name === 'specimens' ? list(value).map(one => without(one, ['identifier'])) : value,
    );
  }
  part('after the case');

  await hand.press('Finish');
  const settled = (thing: string) =>
    tab.until(
      `document.querySelector(${JSON.stringify(`${thing}.settled`)}) || !document.querySelector(${JSON.stringify(`${thing} [data-answer=stays]`)})`,
      'it to be recorded',
    );
  for (const item of list(wanted['left'])) {
    const key = names.get(`${item['device']}`) ?? `${item['device']}`;
    const thing = `.thing:has([id^="thing-${key}"])`;
    await hand.tap(`${thing} [data-answer=stays]`);
    await hand.press(item['purpose'] === 'temporary' ? 'For a time' : 'Meant to stay', thing);
    const until = group(item['until']);
    const proposed = `${thing} .as-proposed`;
    if (await tab.value<boolean>(`Boolean(document.querySelector(${JSON.stringify(proposed)}))`)) {
      await hand.tap(proposed);
      if (item['purpose'] === 'temporary') await hand.press('Interventional radiology', thing);
      await hand.press('Record that it stays', thing);
      await settled(thing);
      continue;
    }
    const fill = async (field: string, value: Tree | undefined) => {
      const place = `#thing-${key}-${field}`;
      if (
        value === undefined ||
        !(await tab.value<boolean>(`Boolean(document.querySelector(${JSON.stringify(place)}))`))
      )
        return;
      await hand.tap(place);
      await hand.speak(`${value as string}`);
    };
    await fill('until-condition', until['condition']);
    await fill('latest', item['latest']);
    if (item['purpose'] === 'temporary') await hand.press('Interventional radiology', thing);
    for (const field of ['site', 'set', 'fixedBy']) await fill(field, item[field]);
    await hand.press('Record that it stays', thing);
    await settled(thing);
  }
  part('what stays');
  await tab.until(`document.querySelector('[data-action=close]')`, 'the end');
  if (await tab.value<boolean>(`Boolean(document.querySelector('.author'))`))
    await hand.press(author, '.author');
  await hand.press('Close: everything is entered');
  await tab.until(`document.querySelector('#sign-name')`, 'the signature');
  if (!(await tab.value<boolean>(`Boolean(document.querySelector('[data-author][aria-pressed=true]'))`)))
    await hand.press(author, '.sign');
  await hand.tap('#sign-name');
  await hand.type(author);
  await hand.press('Sign the report');
  await tab.until(`document.body.innerText.includes('Receipt dated')`, 'the receipt');
  part('close and sign');
  const record = parse(await text()) as Group;
  const missing = Object.keys(wanted).filter(
    name =>
      !['casetally', 'devices', 'events', 'report', 'images', 'after'].includes(name) &&
      !said(record[name], wanted[name] ?? ''),
  );
  return {
    ...{ parts, total: hand.done, seconds: (performance.now() - started) / 1_000 },
    left: [...sheets.left, ...missing.map(name => `${name} (in part)`)],
  };
}
