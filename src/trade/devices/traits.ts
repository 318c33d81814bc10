import { NameTable } from '../names.js';
import { denies, wordsOf } from '../words.js';
import type { DeviceKind, Trait } from './kind.js';

/** Whole phrases of a description that say one thing which a rule asks. Common practice, no source. */
const phrases: readonly { readonly name: Trait; readonly aliases: readonly string[] }[] = [
  {
    name: 'locking',
    aliases: [
      'locking pigtail',
      'locking loop',
      'locking drain',
      'locking string',
      'locking thread',
      'locking catheter',
      'locking pigtail drain',
      'pigtail with locking string',
      'string-locked',
      'thread-locked',
      'lock',
      'locked pigtail',
      'locked loop',
      'self-locking',
    ],
  },
  {
    name: 'peelable',
    aliases: [
      'peel-away',
      'splittable',
      'split sheath',
      'splits',
      'peels away',
      'peel-away sheath',
      'tear-away',
    ],
  },
  {
    name: 'balloon-held',
    aliases: ['balloon-retained', 'retention balloon', 'retained by a balloon', 'held by a balloon'],
  },
  { name: 'rapid exchange', aliases: ['monorail', 'rapid exchange balloon', 'rapid exchange system'] },
  { name: 'thin wall', aliases: ['thin-walled', 'thin wall needle'] },
  { name: 'regular wall', aliases: ['regular-walled', 'standard wall', 'regular wall needle'] },
  { name: 'guiding', aliases: ['guide', 'guiding catheter', 'guide catheter'] },
];

const table = new NameTable(phrases, {
  qualifiers: 'fr f cm mm g single double large small hydrophilic coated radiopaque echogenic tip curved',
});

/** A description falls into its phrases at these marks. */
const marks = /[,;:.()/]|\bwith\b|\band\b/i;

/**
 * What a device has: by its kind, by words of the kind beside the name, and by whole phrases of its description. A
 * phrase that says more or the opposite ('not peelable') says nothing here.
 */
export function traitsOf(
  kind: DeviceKind,
  written: string,
  description: string | undefined,
): ReadonlySet<Trait> {
  const named = wordsOf(written);
  const words = denies(named) ? [] : named;
  const beside = phrases
    .filter(({ name }) => wordsOf(name).every(word => words.includes(word)))
    .map(({ name }) => name);
  const said = (description ?? '').split(marks).flatMap(phrase => table.find(phrase)?.row.name ?? []);
  return new Set([...kind.traits, ...beside, ...said]);
}
