import { say } from '../../findings/say.js';
import { pathSegments, pathText } from '../../record/path.js';
import { readText, type Tree } from '../../record/read.js';
import { isGroup, valueAt } from '../../record/tree.js';
import type { Proposal } from '../claims.js';
import { sourceSaid } from '../source.js';
import { inline } from './render.js';
import type { Remark } from './splice.js';

/** `from the kit Biliary drainage, drugs: { drug: lidocaine, … }` */
export function remarkOf({ path, value, source, at, said }: Proposal): Remark {
  const of = at === undefined ? '' : ` of ${inline(at, 'braces')}`;
  const words = said === undefined ? '' : ` (said: ${inline(said, 'braces')})`;
  const head = `from the ${say(sourceSaid(source))}${of}, ${pathText(path)}`.replace(/[\u2028\u2029]/g, ' ');
  return { section: path[0] ?? '', text: `${head}: ${inline(value, 'braces')}${words}` };
}

/** A proposal that stands in the text of a record as a remark; it asserts nothing. */
export interface Remarked {
  /** Who proposes it, in English: `kit Biliary drainage`. */
  readonly from: string;
  /** The field, or the list that it would be an entry of. */
  readonly path: string;
  readonly value: Tree;
}

const REMARK = /^\s*# from the (.+?)(?: of "[^"]*"| of \S+)?, ([A-Za-z][\w.[\]-]*): (.+)$/;

/** Proposals in the text of a record, in its order. Remarks that do not read as one are people's own. */
export function proposalsIn(text: string): readonly Remarked[] {
  return text.split(/\r?\n/).flatMap(line => {
    const [, from, path, said] = REMARK.exec(line) ?? [];
    if (from === undefined || path === undefined || said === undefined) return [];
    const value = valueIn(said.replace(/ \(said: .*\)$/, ''));
    return value === undefined ? [] : [{ from, path: pathText(pathSegments(path)), value }];
  });
}

function valueIn(said: string): Tree | undefined {
  const { tree, findings } = readText(`value: ${said}`);
  return findings.length > 0 || !isGroup(tree) ? undefined : valueAt(tree, ['value']);
}
