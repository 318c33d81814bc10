import { listOf, type Named, NameTable } from './names.js';

/** An artery that access goes through, as the thresholds of bleeding tell them apart. */
interface AccessArtery extends Named {
  readonly group: 'femoral' | 'radial';
}

const row = (name: string, group: AccessArtery['group'], aliases = ''): AccessArtery => ({
  name,
  group,
  aliases: listOf(aliases),
});

/** Whole names: 'femoral vein beside the artery' is none of these. Common practice, no source. */
const arteries = new NameTable(
  [
    row(
      'common femoral artery',
      'femoral',
      'CFA|femoral artery|arteria femoralis communis|arteria femoralis',
    ),
    row('superficial femoral artery', 'femoral', 'SFA|femoral artery superficial'),
    row('deep femoral artery', 'femoral', 'profunda femoris artery|profunda femoris'),
    row('radial artery', 'radial', 'distal radial artery|arteria radialis|snuffbox radial artery'),
  ],
  {
    qualifiers:
      'left right antegrade retrograde proximal distal mid groin wrist snuffbox bypass graft both bilateral',
    cuts: 'at with under by via',
  },
);

/** The group of an artery by its name. */
export const accessArtery = (site: string): AccessArtery['group'] | undefined =>
  arteries.find(site)?.row.group;

const closed = new NameTable(
  [
    {
      name: 'capped',
      aliases: ['clamped', 'spigotted', 'spigot', 'cap', 'clamp', 'stoppered', 'closed', 'closed off'],
    },
  ],
  {
    qualifiers: 'drain catheter tube off now left on at then overnight again fully',
    cuts: 'with for from after until by since',
  },
);

/** Whether a setting says that a drain is closed; 'unclamped' and 'not capped' do not. */
export const isClosed = (setting: string | undefined): boolean =>
  (setting ?? '').split(/[,;()]|\band\b/i).some(phrase => closed.find(phrase) !== undefined);

const skin = new NameTable(
  [
    {
      name: 'look at the skin',
      aliases: [
        'skin check',
        'skin review',
        'check skin',
        'review skin',
        'inspect skin',
        'examine skin',
        'skin inspection',
        'skin examination',
        'look at skin',
        'inspection of skin',
        'look for erythema of skin',
        'look at skin of back',
      ],
    },
  ],
  {
    qualifiers:
      'where beam entered back chest flank radiation dose area patient his her irradiated field erythema at for redness injury',
    cuts: 'and by with after in where of over',
  },
);

/** Whether a task is a look at the skin. */
export const looksAtSkin = (task: string): boolean =>
  task.split(/[,;.()]/).some(phrase => skin.find(phrase) !== undefined);
