import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { Decimal } from './decimal.js';
import { pathText } from './path.js';
import { FORBIDDEN, MAX_DEPTH, MAX_VALUES, type Tree } from './read.js';

/** Data of a caller as plain data, and what of it was no data at all. */
export interface DataTree {
  readonly tree?: Tree;
  readonly findings: readonly Finding[];
}

/**
 * Copies a caller's object into plain data within the bounds of a file. Absent and undefined fields are left out;
 * null is a field without a value. Numbers become text without exponent: pass text to keep trailing zeros.
 */
export function treeOf(data: unknown): DataTree {
  const findings: Finding[] = [];
  let values = 0;
  const report = (found: Finding) => {
    if (found.code !== 'record.too-deep' || !findings.some(f => f.code === found.code)) findings.push(found);
    return undefined;
  };
  const wrong = (path: readonly PropertyKey[], found: Param) =>
    report(finding('record.wrong-type', pathText(path), { expected: message('expected.plainData'), found }));

  const visit = (value: unknown, path: readonly PropertyKey[]): Tree | undefined => {
    values++;
    if (values > MAX_VALUES || value === undefined) return undefined;
    if (path.length > MAX_DEPTH) return report(finding('record.too-deep', '', { limit: String(MAX_DEPTH) }));
    if (value === null)
      return report(finding('record.empty-value', pathText(path), { key: String(path.at(-1) ?? '') }));
    if (typeof value === 'string' || typeof value === 'boolean') return value;
    if (typeof value === 'bigint') return String(value);
    if (typeof value === 'number' && Number.isFinite(value)) return new Decimal(value).toString();
    if (typeof value !== 'object')
      return wrong(path, typeof value === 'number' ? message('found.noNumber') : typeof value);
    if (Array.isArray(value))
      return value.flatMap((item: unknown, index) => {
        const copy = visit(item, [...path, index]);
        return copy === undefined ? [] : [copy];
      });
    const prototype: unknown = Object.getPrototypeOf(value);
    if (prototype !== null && prototype !== Object.prototype) return wrong(path, message('found.ofClass'));
    const entries = Object.entries(value).flatMap(([name, child]): [string, Tree][] => {
      if (FORBIDDEN.has(name)) {
        report(finding('record.forbidden-key', pathText(path), { key: name }));
        return [];
      }
      const copy = visit(child, [...path, name]);
      return copy === undefined ? [] : [[name, copy]];
    });
    return Object.fromEntries(entries);
  };

  const tree = visit(data, []);
  if (values > MAX_VALUES)
    return { findings: [finding('record.too-many', '', { limit: String(MAX_VALUES) })] };
  return { ...(tree !== undefined && { tree }), findings };
}
