import { lexicon } from '../../src/findings/say.js';
import { sheetsIn } from '../../web/case/engine/sheets.js';
import type { Group } from './data.js';
import type { Hand } from './hand.js';
import type { Sheets } from './sheets.js';

const { say } = lexicon('en-GB');
const nodes = sheetsIn('en-GB').find(({ name }) => name === 'events')?.children ?? [];
/** What is said of an event only where somebody has a hand free for it. */
const PASSED_OVER: ReadonlySet<string> = new Set([
  'at',
  'state',
  'note',
  'guidance',
  'into',
  'access',
  'target',
  'across',
  'crossed',
  'with',
  'code',
]);
const RELATIONS: ReadonlySet<string> = new Set([
  'do',
  'device',
  'part',
  'over',
  'through',
  'replaces',
  'count',
]);

/** Records an event by touching the device it happens to. @returns what of it was not said */
export async function touch(
  hand: Hand,
  sheets: Sheets,
  event: Group,
  keyOf: (key: string) => string,
  kindOf: (key: string, part: string) => string,
): Promise<readonly string[]> {
  const { tab } = hand;
  const device = keyOf(`${event['device']}`);
  const part = typeof event['part'] === 'string' ? event['part'] : undefined;
  const verb = `${event['do']}`;
  const nameOf = (key: string) =>
    tab.value<string>(
      `document.querySelector('[data-device=${JSON.stringify(keyOf(key))}] .name')?.firstChild?.textContent?.trim() ?? ''`,
    );
  const over = typeof event['over'] === 'string' ? await nameOf(event['over']) : undefined;
  const through = typeof event['through'] === 'string' ? await nameOf(event['through']) : undefined;
  const ways = [
    ...(over === undefined ? [] : [say('case.way.over', { what: over })]),
    ...(through === undefined ? [] : [say('case.way.through', { what: through })]),
  ].join(', ');
  const rows = `[...document.querySelectorAll('.row[data-device=${JSON.stringify(device)}]')]`;
  const kind = part === undefined ? undefined : kindOf(`${event['device']}`, part);
  const own =
    kind === undefined
      ? `${rows}[0]`
      : `(${rows}.find(one => one.querySelector('.name').textContent.includes(${JSON.stringify(kind)})) ?? ${rows}[0])`;
  const verbSaid = say(`case.do.${verb}` as 'case.do.insert');
  const extras = Object.keys(event).filter(name => !RELATIONS.has(name) && !PASSED_OVER.has(name));
  const passed = Object.keys(event).filter(name => PASSED_OVER.has(name) && name !== 'at');

  await tab.until(own, `a row of ${device}`);
  const act = `${own}.querySelector('.act')`;
  const stands = await tab.value<readonly string[]>(
    `(one => one ? [one.firstChild.textContent.trim(), one.querySelector('small')?.textContent.trim() ?? ''] : [])(${act})`,
  );
  const named =
    kind === undefined ||
    (await tab.value<string>(`${own}.querySelector('.name').textContent`)).includes(kind);
  if (
    named &&
    extras.length === 0 &&
    stands[0] === verbSaid &&
    stands[1] === ways &&
    event['count'] === undefined
  ) {
    await hand.tapFound(act, `${verb} ${device}`);
    return passed;
  }

  if (!(await tab.value<boolean>(`Boolean(${own}.querySelector('.row-more'))`)))
    await hand.tapFound(`${own}.querySelector('.row-open')`, device);
  const more = `${own}.querySelector('.row-more')`;
  await tab.until(more, `what ${device} offers`);
  const offered = (only: string) =>
    `[...${more}.querySelectorAll('[data-do=${JSON.stringify(verb)}]')].find(one => ${only})`;
  const alone = offered(`!one.querySelector('small')`);
  const ofPart = offered(`one.querySelector('small')?.textContent === ${JSON.stringify(part)}`);
  const there = (one: string) => tab.value<boolean>(`Boolean(${one})`);
  // A label says nothing of the parts of a device: what is done with one is done with the whole, or nobody says it.
  const offer = part !== undefined && (await there(ofPart)) ? ofPart : alone;
  if (!(await there(offer)) || (!named && verb === 'remove' && offer === alone)) {
    await hand.tapFound(`${own}.querySelector('.row-open')`, device);
    return [...Object.keys(event).filter(name => name !== 'at')];
  }
  if (await tab.value<boolean>(`!${offer}.checkVisibility()`))
    await hand.tapFound(`${more}.querySelector('details summary')`, 'more');
  await hand.tapFound(offer, `${verb} ${device}`);
  await tab.until(
    `document.querySelector('.offer-form') || !${own}?.querySelector('.row-more')`,
    'its fields',
  );
  // What says all by itself is recorded at once.
  if (!(await there(`document.querySelector('.offer-form')`))) return [...passed, ...extras];
  for (const [relation, name] of [
    ['over', over],
    ['through', through],
  ] as const) {
    const legend = say(`case.choose.${relation}`);
    const choice = `[...document.querySelectorAll('.offer-form fieldset')].filter(one => one.querySelector('legend').textContent === ${JSON.stringify(legend)})
      .flatMap(one => [...one.querySelectorAll('button')]).find(one => one.textContent.trim() === ${JSON.stringify(name ?? say('case.nothing'))})`;
    if (await tab.value<boolean>(`${choice}?.getAttribute('aria-pressed') === 'false'`))
      await hand.tapFound(choice, `${relation} ${name}`);
  }
  for (let n = 1; n < Number(event['count'] ?? 1); n += 1)
    await hand.tap(`.offer-form .how-many button:last-child`);
  const unsaid: string[] = [...passed];
  for (const name of extras) {
    const node = nodes.find(one => one.name === name);
    const place = `.offer-form [data-field="offer-${name}"]`;
    const value = event[name];
    if (
      !node ||
      value === undefined ||
      !(await tab.value<boolean>(`Boolean(document.querySelector(${JSON.stringify(place)}))`))
    )
      unsaid.push(name);
    else await sheets.fill(node, place, name, value);
  }
  await hand.tap('.offer-form .main');
  return unsaid;
}
