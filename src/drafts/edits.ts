import { type Finding, finding } from '../findings/finding.js';
import type { MessageKey } from '../findings/message.js';
import { message } from '../findings/message.js';
import { treeOf } from '../record/data.js';
import { pathSegments, pathText } from '../record/path.js';
import { FORBIDDEN, MAX_DEPTH, type Tree } from '../record/read.js';
import { aligned } from './align.js';
import { copyOf, type Ids, isFields, isList, type Node, nodeOf } from './node.js';

/**
 * One change of a record. Paths are those of findings: `devices.wire1.label.di`, `events[3].at`. Groups on the way to a
 * field that is set are made where they are not there; lists are made by the first insertion.
 */
export type Edit =
  | { readonly path: string; readonly value: Tree }
  | { readonly path: string; readonly remove: true }
  /** Into the list at the path: before the entry that has this place, or at the end. */
  | { readonly path: string; readonly insert: number | 'end'; readonly value: Tree };

/** Most edits that are made at one go. */
export const MAX_EDITS = 10_000;

type Why = Extract<MessageKey, `drafts.${string}`>;

const impossible = (path: string, why: Why): Finding =>
  finding('drafts.impossible', path, { place: shown(path), why: message(why) });

const shown = (path: string) => (path.length > 200 ? `${path.slice(0, 200)}…` : path);

/** Edits of a caller, as data; findings where they are none. */
export function readEdits(
  data: unknown,
): { readonly edits: readonly Edit[] } | { readonly findings: readonly Finding[] } {
  if (!Array.isArray(data)) return { findings: [impossible('', 'drafts.noEdit')] };
  if (data.length > MAX_EDITS)
    return { findings: [finding('drafts.too-many', '', { found: `${data.length}`, limit: `${MAX_EDITS}` })] };
  const edits: Edit[] = [];
  const findings: Finding[] = [];
  for (const one of data as readonly unknown[]) {
    const read = readEdit(one);
    if ('path' in read) edits.push(read);
    else findings.push(...read.findings);
  }
  return findings.length > 0 ? { findings } : { edits };
}

function readEdit(data: unknown): Edit | { readonly findings: readonly Finding[] } {
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    return { findings: [impossible('', 'drafts.noEdit')] };
  const { path, value, insert, remove, ...rest } = data as Record<string, unknown>;
  if (typeof path !== 'string' || Object.keys(rest).length > 0)
    return { findings: [impossible('', 'drafts.noEdit')] };
  if (remove === true && value === undefined && insert === undefined) return { path, remove };
  if (remove !== undefined || value === undefined) return { findings: [impossible(path, 'drafts.noEdit')] };
  const { tree, findings } = treeOf(value);
  if (tree === undefined || findings.length > 0)
    return { findings: findings.length > 0 ? findings : [impossible(path, 'drafts.noEdit')] };
  if (insert === undefined) return { path, value: tree };
  return insert === 'end' || (Number.isSafeInteger(insert) && (insert as number) >= 0)
    ? { path, insert: insert as number | 'end', value: tree }
    : { findings: [impossible(path, 'drafts.noPlace')] };
}

/** Makes edits one after the other in a copy of the data: all of them or none. */
export function edited(
  root: Node,
  edits: readonly Edit[],
  ids: Ids,
): { readonly node: Node } | { readonly findings: readonly Finding[] } {
  if (edits.length > MAX_EDITS)
    return {
      findings: [finding('drafts.too-many', '', { found: `${edits.length}`, limit: `${MAX_EDITS}` })],
    };
  const node = copyOf(root);
  const findings = edits.flatMap(edit => {
    const why = make(node, edit, ids);
    return why ? [impossible(edit.path, why)] : [];
  });
  return findings.length > 0 ? { findings } : { node };
}

/** A path as steps; undefined for one that is not written as findings write it. */
function stepsOf(path: string): (string | number)[] | undefined {
  try {
    const steps = pathSegments(path) as (string | number)[];
    return pathText(steps) === path ? steps : undefined;
  } catch {
    // A name in quotes that JSON cannot read.
    return undefined;
  }
}

function make(root: Node, edit: Edit, ids: Ids): Why | undefined {
  const steps = stepsOf(edit.path);
  if (!steps) return 'drafts.noPath';
  if (steps.length > MAX_DEPTH) return 'drafts.tooDeep';
  if (steps.some(step => typeof step === 'string' && FORBIDDEN.has(step))) return 'drafts.forbidden';
  const last = steps.at(-1);
  if (last === undefined) return 'drafts.noPath';
  const parent = parentOf(root, steps, 'value' in edit ? ids : undefined);
  if (typeof parent === 'string') return parent;
  if ('insert' in edit) return insertInto(parent, last, edit.insert, nodeOf(edit.value, ids), ids);
  if (isList(parent.value)) {
    const place = typeof last === 'number' ? last : -1;
    const was = parent.value[place];
    if (!was) return 'drafts.notThere';
    if ('remove' in edit) parent.value.splice(place, 1);
    else parent.value[place] = aligned(was, nodeOf(edit.value, ids));
    return undefined;
  }
  if (!isFields(parent.value) || typeof last !== 'string') return 'drafts.notThere';
  const was = parent.value.get(last);
  if ('remove' in edit) return parent.value.delete(last) ? undefined : 'drafts.notThere';
  const fresh = nodeOf(edit.value, ids);
  parent.value.set(last, was ? aligned(was, fresh, last) : fresh);
  return undefined;
}

/** What the last step of a path is in. @param ids makes groups that are missing */
function parentOf(root: Node, steps: readonly (string | number)[], ids: Ids | undefined): Node | Why {
  let here = root;
  for (const [depth, step] of steps.slice(0, -1).entries()) {
    let next: Node | undefined;
    if (isList(here.value)) next = typeof step === 'number' ? here.value[step] : undefined;
    else if (isFields(here.value) && typeof step === 'string') {
      next = here.value.get(step);
      if (!next && ids && typeof steps[depth + 1] === 'string') {
        next = { id: ids.next(), value: new Map() };
        here.value.set(step, next);
      }
    }
    if (!next) return 'drafts.notThere';
    here = next;
  }
  return isList(here.value) || isFields(here.value) ? here : 'drafts.holdsText';
}

function insertInto(
  parent: Node,
  name: string | number,
  at: number | 'end',
  entry: Node,
  ids: Ids,
): Why | undefined {
  let list: Node | undefined;
  if (isList(parent.value)) list = typeof name === 'number' ? parent.value[name] : undefined;
  else if (isFields(parent.value) && typeof name === 'string') {
    list = parent.value.get(name);
    if (!list) {
      list = { id: ids.next(), value: [] };
      parent.value.set(name, list);
    }
  }
  if (!list || !isList(list.value)) return 'drafts.noList';
  const place = at === 'end' ? list.value.length : at;
  if (place > list.value.length) return 'drafts.noPlace';
  list.value.splice(place, 0, entry);
  return undefined;
}
