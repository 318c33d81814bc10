import type { Finding } from '../findings/finding.js';
import { grouped } from '../record/grouped.js';
import type { Tree } from '../record/read.js';
import type { TimeContext } from '../record/time.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import { meaningOf } from './meaning.js';
import { differ, type Present, presentSide, sideOf } from './settle.js';

/** What tells an entry of a list from the others: two with the same are about the same. Absent: only equal ones are. */
const IDENTITY: Readonly<Record<string, readonly string[]>> = {
  'patient.identifiers': ['system'],
  team: ['key'],
  access: ['key'],
  images: ['study', 'key'],
  specimens: ['key'],
  vitals: ['what', 'at'],
  drugs: ['drug', 'at'],
  'before.labs': ['what', 'at'],
  'after.labs': ['what', 'at'],
  'before.allergies': ['to'],
  'before.anticoagulants': ['drug'],
  left: ['device', 'part'],
};

export interface Added {
  /** In the order in which they go to the end of the list. */
  readonly added: readonly Claim[];
  /** Entries that contradict one another: for a person to choose from. */
  readonly open: readonly Claim[];
  readonly findings: readonly Finding[];
}

/**
 * Decides which entries a list gets: none twice, and none that says of the same thing what another entry contradicts.
 * @param present the list, or what stands in its place such as `none`
 * @param sourcesOf the sources that the record names for an entry
 */
export function addTo(
  claims: readonly Claim[],
  present: Present | undefined,
  sourcesOf: (index: number) => Present['sources'],
  context: TimeContext,
): Added {
  const [first] = claims;
  if (!first) return { added: [], open: [], findings: [] };
  const { path } = first;
  const where = path.join('.');
  if (present && !Array.isArray(present.value)) {
    const findings = [differ(path, [presentSide(present), ...claims.map(sideOf)])];
    return { added: [], open: [], findings };
  }
  const entries = Array.isArray(present?.value) ? present.value : [];
  const meaning = (value: Tree) => meaningOf(value, path.at(-1) ?? '', context);
  const idOf = (value: Tree) => identityOf(value, where, context) ?? meaning(value);
  const added: Claim[] = [];
  const open: Claim[] = [];
  const findings: Finding[] = [];
  for (const [id, about] of grouped(claims, claim => idOf(claim.value))) {
    const at = entries.findIndex(entry => idOf(entry) === id);
    const there = entries[at];
    if (there !== undefined) {
      const contrary = about.filter(one => !agrees(one.value, there, context));
      const side = presentSide({ value: there, sources: sourcesOf(at) });
      if (contrary.length > 0) findings.push(differ(path, [side, ...contrary.map(sideOf)]));
      continue;
    }
    // The one that says most, so that the others are within it.
    const [fullest] = about.toSorted((a, b) => sizeOf(b.value) - sizeOf(a.value));
    if (fullest && about.every(one => agrees(one.value, fullest.value, context))) added.push(fullest);
    else {
      open.push(...about);
      findings.push(differ(path, about.map(sideOf)));
    }
  }
  return { added, open, findings };
}

function identityOf(value: Tree, list: string, context: TimeContext): string | undefined {
  const names = Object.hasOwn(IDENTITY, list) ? IDENTITY[list] : undefined;
  const parts = (names ?? []).flatMap(name => {
    const part = valueAt(value, [name]);
    return part === undefined ? [] : [`${name}:${meaningOf(part, name, context)}`];
  });
  return parts.length === 0 || typeof value !== 'object' ? undefined : parts.join(' ');
}

/** Everything that the one says, the other says too. */
function agrees(one: Tree, other: Tree, context: TimeContext): boolean {
  if (typeof one !== 'object' || typeof other !== 'object' || Array.isArray(one) || Array.isArray(other))
    return meaningOf(one, '', context) === meaningOf(other, '', context);
  return Object.entries(one).every(([name, part]) => {
    const there = valueAt(other, [name]);
    return there !== undefined && meaningOf(part, name, context) === meaningOf(there, name, context);
  });
}

const sizeOf = (value: Tree) => (typeof value === 'object' ? Object.keys(value).length : 1);
