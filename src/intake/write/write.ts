import { type Finding, finding } from '../../findings/finding.js';
import { readText, type Tree } from '../../record/read.js';
import type { Merged } from '../merge.js';
import { differences } from './differences.js';
import { canonicalText, expectedTree } from './expected.js';
import { remarkOf } from './remarks.js';
import { type Remark, spliced } from './splice.js';

/** The text with the merge in it; without `text` nothing may be written, and `findings` say why. */
export interface Written {
  readonly text?: string;
  readonly findings: readonly Finding[];
}

/**
 * Puts a merge into the text of its record. Every other sign of the text stays as it is: order, remarks, quotes, ends of
 * lines. YAML stays YAML, JSON stays JSON. Proposals become remarks, which JSON has not. What was written is read again:
 * unless it says exactly what it is to say, nothing is written.
 * @param text that the merge was made for
 */
export function writeRecord(text: string, merged: Merged): Written {
  const remarks = merged.proposals.map(remarkOf).filter(remark => !isThere(text, remark.text));
  return withChanges(text, tree => expectedTree(tree, merged), remarks);
}

/** Puts remarks alone into a text. */
export function writeRemarks(text: string, remarks: readonly Remark[]): Written {
  return withChanges(
    text,
    tree => tree,
    remarks.filter(remark => !isThere(text, remark.text)),
  );
}

function withChanges(
  text: string,
  expected: (tree: Tree) => Tree | undefined,
  remarks: readonly Remark[],
): Written {
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  const body = text.slice(mark.length);
  const { tree, findings } = readText(body);
  const wanted = tree === undefined ? undefined : expected(tree);
  if (tree === undefined || wanted === undefined) return notWritten;
  const changes = differences(tree, wanted);
  if (changes?.length === 0 && remarks.length === 0) return { text, findings: [] };
  const written = changes && spliced(body, changes, remarks);
  if (written === undefined) return notWritten;
  const again = readText(written);
  const same = again.tree !== undefined && canonicalText(again.tree) === canonicalText(wanted);
  return same && again.findings.length <= findings.length
    ? { text: mark + written, findings: [] }
    : notWritten;
}

const notWritten: Written = { findings: [finding('intake.not-written', '', {})] };

const isThere = (text: string, remark: string): boolean =>
  text.split(/\r?\n/).some(line => line.trim() === `# ${remark}`);
