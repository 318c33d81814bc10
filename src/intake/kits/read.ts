import { type Finding, finding, sortFindings } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { placed } from '../../record/parse.js';
import type { Tree } from '../../record/read.js';
import { readAs } from '../../record/read-as.js';
import { suggest } from '../../record/suggest.js';
import { isGroup, valueAt } from '../../record/tree.js';
import type { Contribution, GivenValue, Typed } from '../contribution.js';
import { kitSchema } from './schema.js';

/** A kit as its file has it: every value as it was typed. */
export interface Kit {
  readonly name: string;
  /** Kinds of case that it is for; none: every one. */
  readonly caseKinds: readonly string[];
  readonly devices: Readonly<Record<string, Tree>>;
  readonly steps: readonly Tree[];
  readonly drugs: readonly Tree[];
  readonly aftercare: readonly Tree[];
  readonly left: readonly Tree[];
  readonly sedation?: Tree;
}

/** Reads a kit from YAML or JSON; every fault is named with line and column. */
export function readKit(input: string | Uint8Array): {
  readonly kit?: Kit;
  readonly findings: readonly Finding[];
} {
  const read = readAs(input, kitSchema);
  if ('findings' in read) return read;
  const { data, tree, locate } = read;
  const kit: Kit = {
    name: data.name,
    caseKinds: data.caseKinds ?? [],
    devices: groupAt(tree, 'devices'),
    steps: listAt(tree, 'steps'),
    drugs: listAt(tree, 'drugs'),
    aftercare: listAt(tree, 'aftercare'),
    left: listAt(tree, 'left'),
  };
  const sedation = valueAt(tree, ['sedation']);
  const lost = strangers(kit);
  if (lost.length > 0) return { findings: sortFindings(placed(lost, locate)) };
  return { kit: { ...kit, ...(sedation !== undefined && { sedation }) }, findings: [] };
}

function groupAt(tree: Tree, name: string): Readonly<Record<string, Tree>> {
  const value = valueAt(tree, [name]);
  return isGroup(value) ? value : {};
}

function listAt(tree: Tree, name: string): readonly Tree[] {
  const value = valueAt(tree, [name]);
  return Array.isArray(value) ? value : [];
}

/** Steps, aftercare and what stays name devices of the kit: a proposal about another one would be taken over with its mistake. */
function strangers({ devices, steps, aftercare, left }: Kit): Finding[] {
  const known = Object.keys(devices);
  const of = (list: string, entries: readonly Tree[], fields: readonly string[]) =>
    entries.flatMap((entry, index) =>
      fields.flatMap(field => {
        const key = valueAt(entry, [field]);
        if (typeof key !== 'string' || known.includes(key)) return [];
        const what = message('referred.device');
        const params = { what, key, suggestion: suggest(key, known) };
        return [finding('record.unknown-reference', `${list}[${index}].${field}`, params)];
      }),
    );
  return [
    ...of('steps', steps, ['device', 'replaces', 'over', 'through']),
    ...of('aftercare', aftercare, ['device']),
    ...of('left', left, ['device']),
  ];
}

/**
 * What a kit gives to a record: its devices, which nobody has used yet, and proposals.
 * @param at when it is put on the table, ISO 8601 with offset
 */
export function kitContribution(kit: Kit, at: string): Contribution {
  const entries = (list: string, values: readonly Tree[]) =>
    values.map((value): GivenValue => ({ path: [list], value: value as Typed, as: 'propose-entry' }));
  return {
    from: 'kit',
    at,
    by: kit.name,
    values: [
      ...Object.entries(kit.devices).map(
        ([key, value]): GivenValue => ({ path: ['devices', key], value: value as Typed, as: 'set' }),
      ),
      ...entries('events', kit.steps),
      ...entries('drugs', kit.drugs),
      ...entries('aftercare', kit.aftercare),
      ...entries('left', kit.left),
      ...(kit.sedation === undefined
        ? []
        : [{ path: ['sedation'], value: kit.sedation as Typed, as: 'propose' } as const]),
    ],
    findings: [],
  };
}
