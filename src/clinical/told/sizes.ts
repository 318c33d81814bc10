import { entriesOf } from '../../record/entries.js';
import type { Quantity } from '../../record/quantity.js';
import { unitOfCode } from '../../record/units.js';
import { canBe, type ToldDevice, toldDevices } from '../../trade/devices/told.js';
import type { Case, Claim, Recorded, Spot } from './claim.js';

interface Lesion {
  readonly noun: RegExp;
  /** The noun after a figure, and before it. */
  readonly after: RegExp;
  readonly before: RegExp;
  /** Only along the vessel. */
  readonly along: boolean;
}

const linking = '(?:\\s+(?:of|is|was|measures|measured|measuring|now))*(?:\\s+about)?\\s*:?\\s*$';

const lesion = (words: string, along: boolean): Lesion => ({
  noun: new RegExp(`\\b(?:${words})\\b`, 'i'),
  after: new RegExp(`^\\s*(?:[\\w-]+\\s+)?(?:${words})\\b(?!\\s+(?:of\\s+\\d|measur))`, 'i'),
  before: new RegExp(`\\b(?:${words})${linking}`, 'i'),
  along,
});

/** What texts measure, by the words for it. */
const lesions: readonly Lesion[] = [
  lesion('tumours?|tumors?|lesions?|nodules?|mass|metastas[ie]s|carcinoma|adenoma|fibroids?|myomas?', false),
  lesion('stenos[ie]s|narrowing', true),
  lesion('tracts?', true),
  lesion('abscess|collections?', false),
  lesion('cysts?', false),
  lesion('aneurysms?', false),
  lesion('cava', false),
  lesion('stones?', false),
];

/** Sizes of what was treated, and of devices, where a noun beside the figure tells of which. */
export const recordedSizes: Claim = (spot, of) => {
  const { code } = spot.figure.quantity;
  const dimension = unitOfCode(code)?.dimension;
  if (dimension !== 'length' && dimension !== 'calibre') return undefined;
  const device = deviceSizes(spot, code, of);
  if (device) return device;
  return dimension === 'length' ? lesionSizes(spot, of) : undefined;
};

const lesionSizes: Claim = ({ told, before, after }, { record }) => {
  const found = lesions.find(one => one.after.test(after) || one.before.test(before));
  if (!found) return undefined;
  const { noun } = found;
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

interface Noun {
  readonly after: RegExp;
  /** 'PICC of 22 cm', 'stent, 8 mm'. */
  readonly before: RegExp;
  /** The row of `toldDevices` whose name the word is. */
  readonly row: ToldDevice | undefined;
  readonly families: readonly string[];
  readonly calibreOnly: boolean;
}

const second = '(?:\\s*(?:x|×)\\s*\\d+(?:\\.\\d+)?(?:\\s?(?:mm|cm))?)?';
const elsewhere =
  'of|in|at|from|and|to|the|an?|its|beyond|above|below|over|past|by|for|with|through|into|tip|piece|fragment';
const noun = (words: string, families: readonly string[], calibreOnly = false): Noun => ({
  after: new RegExp(`^${second}\\s+(?:(?!(?:${elsewhere})\\b)[\\w/-]+\\s+){0,3}?(?:${words})\\b`, 'i'),
  before: new RegExp(
    `\\b(?:${words})(?:\\s+(?:of|is|was|,)\\s*|,\\s*)(?:\\d[\\d.]*\\s?(?:Fr|mm|cm|G)?,?\\s*(?:x|×|by|and)?\\s*)?$`,
    'i',
  ),
  row: toldDevices.find(({ name }) => new RegExp(`^(?:${words})$`, 'i').test(name)),
  families,
  calibreOnly,
});

/** Words for a device beside a figure, and the families it can be of. */
const nouns: readonly Noun[] = [
  noun('sheaths?|introducers?', ['sheath']),
  noun('needles?', ['needle']),
  noun('cores?|biops(?:y|ies)|passes|samples?', ['needle'], true),
  noun('catheters?', ['catheter', 'drain', 'tube', 'sheath']),
  noun('drains?|tubes?', ['drain', 'tube', 'catheter']),
  noun('stents?', ['stent']),
  noun('balloons?', ['balloon', 'stent', 'catheter', 'tube']),
  noun('filters?', ['filter']),
  noun('PICCs?|lines?|ports?|midlines?', ['catheter', 'port']),
  noun('gastrostom(?:y|ies)|jejunostom(?:y|ies)|gastrojejunostom(?:y|ies)|buttons?', ['tube']),
  noun('nephrostom(?:y|ies)|cholecystostom(?:y|ies)|pigtails?', ['drain', 'tube', 'catheter']),
  noun('wires?|guidewires?', ['wire']),
  noun('coils?|plugs?', ['embolic', 'closure']),
];

function deviceSizes(
  { before, after }: Pick<Spot, 'before' | 'after'>,
  code: string,
  { devices, record }: Case,
): Recorded[] | undefined {
  const fits = ({ calibreOnly }: Noun) => !calibreOnly || code === '[Ch]' || code === '{gauge}';
  const found =
    nouns.find(noun => fits(noun) && noun.after.test(after)) ??
    nouns.find(noun => fits(noun) && noun.before.test(before));
  if (!found) return undefined;
  const { row } = found;
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
