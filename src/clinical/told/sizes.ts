import { entriesOf } from '../../record/entries.js';
import type { Quantity } from '../../record/quantity.js';
import { unitOfCode } from '../../record/units.js';
import { canBe, toldDevices } from '../../trade/devices/told.js';
import type { Case, Claim, Recorded } from './claim.js';

/** What texts measure, by the words for it; `length`: only along the vessel. */
const lesions: readonly { readonly words: string; readonly along: boolean }[] = [
  {
    words: 'tumours?|tumors?|lesions?|nodules?|mass|metastas[ie]s|carcinoma|adenoma|fibroids?|myomas?',
    along: false,
  },
  { words: 'stenos[ie]s|narrowing', along: true },
  { words: 'tracts?', along: true },
  { words: 'abscess|collections?', along: false },
  { words: 'cysts?', along: false },
  { words: 'aneurysms?', along: false },
  { words: 'cava', along: false },
  { words: 'stones?', along: false },
];

const linking = '(?:\\s+(?:of|is|was|measures|measured|measuring|now))*(?:\\s+about)?\\s*:?\\s*$';

/** Sizes of what was treated, and of devices, where a noun beside the figure tells of which. */
export const recordedSizes: Claim = (spot, of) => {
  const { code } = spot.figure.quantity;
  const dimension = unitOfCode(code)?.dimension;
  if (dimension !== 'length' && dimension !== 'calibre') return undefined;
  const device = deviceSizes(spot.after, code, of);
  if (device) return device;
  return dimension === 'length' ? lesionSizes(spot, of) : undefined;
};

const lesionSizes: Claim = ({ told, before, after }, { record }) => {
  const found = lesions.find(
    ({ words }) =>
      new RegExp(`^\\s*(?:[\\w-]+\\s+)?(?:${words})\\b(?!\\s+(?:of\\s+\\d|measur))`, 'i').test(after) ||
      new RegExp(`\\b(?:${words})${linking}`, 'i').test(before),
  );
  if (!found) return undefined;
  const noun = new RegExp(`\\b(?:${found.words})\\b`, 'i');
  const targets = Object.entries(record.targets ?? {}).filter(([, { what, lesion }]) =>
    noun.test(`${what.text} ${lesion?.text ?? ''}`),
  );
  // A text about a target may call it by another word: a collection, of an empyema.
  const about = Object.entries(record.targets ?? {}).filter(([key]) => key === told.about);
  const own = targets.length === 0 ? about : targets.filter(([key]) => key === told.about);
  return (own.length > 0 ? own : targets).flatMap(([key, target]) => {
    const place = `targets.${key}`;
    const list: (readonly [Quantity | undefined, string])[] = [[target.length, `${place}.length`]];
    // The diameter is that of the vessel, unless what was treated is the thing itself.
    if (!found.along && noun.test(target.what.text)) {
      list.push([target.diameter, `${place}.diameter`]);
      for (const [i, one] of (target.measures ?? []).entries())
        list.push(
          [one.before, `${place}.measures[${i}].before`],
          [one.after, `${place}.measures[${i}].after`],
        );
    }
    return list.flatMap(([quantity, where]) => (quantity ? [{ quantity, place: where }] : []));
  });
};

/** Words for a device beside a figure, and the families it can be of. */
const nouns: readonly {
  readonly words: string;
  readonly families: readonly string[];
  readonly calibreOnly?: boolean;
}[] = [
  { words: 'sheaths?|introducers?', families: ['sheath'] },
  { words: 'needles?', families: ['needle'] },
  { words: 'cores?|biops(?:y|ies)|passes|samples?', families: ['needle'], calibreOnly: true },
  { words: 'catheters?', families: ['catheter', 'drain', 'tube', 'sheath'] },
  { words: 'drains?|tubes?', families: ['drain', 'tube', 'catheter'] },
  { words: 'stents?', families: ['stent'] },
  { words: 'balloons?', families: ['balloon', 'stent', 'catheter', 'tube'] },
  { words: 'filters?', families: ['filter'] },
  { words: 'coils?|plugs?', families: ['embolic', 'closure'] },
];

function deviceSizes(after: string, code: string, { devices, record }: Case): Recorded[] | undefined {
  const second = '(?:\\s*(?:x|×)\\s*\\d+(?:\\.\\d+)?(?:\\s?(?:mm|cm))?)?';
  const found = nouns.find(({ words, calibreOnly }) =>
    calibreOnly && code !== '[Ch]' && code !== '{gauge}'
      ? false
      : new RegExp(
          `^${second}\\s+(?:(?!(?:of|in|at|from|and|to|the|an?|its|beyond|above|below|over|past|by|for|with|through|into|tip|piece|fragment)\\b)[\\w/-]+\\s+){0,3}?(?:${words})\\b`,
          'i',
        ).test(after),
  );
  if (!found) return undefined;
  const row = toldDevices.find(({ name }) => new RegExp(`^(?:${found.words})$`, 'i').test(name));
  return [...devices.values()]
    .filter(
      ({ family, kind, entry }) =>
        found.families.includes(family) ||
        (row !== undefined && canBe(row, kind, family)) ||
        entry.carried !== undefined,
    )
    .flatMap(({ key, entry, size, diameter, length }) => {
      const place = `devices.${key}`;
      const own = [size?.diameter, size?.upTo, size?.length, diameter, length, entry.takes];
      const depths = entriesOf(record.left).flatMap(left =>
        left.device === key && left.depth ? [left.depth] : [],
      );
      const opened = (record.events ?? []).flatMap(event =>
        event.device === key ? [event.diameter, event.depth] : [],
      );
      return [...own, ...depths, ...opened].flatMap(quantity => (quantity ? [{ quantity, place }] : []));
    });
}
