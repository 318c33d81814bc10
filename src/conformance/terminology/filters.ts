import type { Include } from '../definitions/model.js';
import type { Codes } from './code-system.js';

type Filter = NonNullable<Include['filter']>[number];

/** The codes that all `filters` leave, or why that cannot be told. Source: R4 ValueSet filter operators. */
export function filtered(codes: Codes, filters: readonly Filter[]): Set<string> | string {
  let left: Set<string> | undefined;
  for (const filter of filters) {
    const found = one(codes, filter);
    if (found === undefined)
      return `the filter ${filter.property} ${filter.op} ${filter.value} is not supported`;
    left = left ? new Set([...left].filter(code => found.has(code))) : found;
  }
  return left ?? new Set();
}

function one(codes: Codes, { property, op, value }: Filter): Set<string> | undefined {
  const read = (concept: { code: string; display?: string; property?: Readonly<Record<string, string>> }) =>
    property === 'code' || property === 'concept'
      ? concept.code
      : property === 'display'
        ? concept.display
        : concept.property?.[property];
  switch (op) {
    case 'is-a':
      return codes.below(value);
    case 'descendent-of': {
      const found = codes.below(value);
      found.delete(value);
      return found;
    }
    case 'is-not-a': {
      const not = codes.below(value);
      return codes.where(c => !not.has(c.code));
    }
    case 'generalizes':
      return codes.above(value);
    case '=':
      if (property === 'parent') return codes.where(c => c.parent?.includes(value) === true);
      return codes.where(c => read(c) === value);
    case 'in':
      return codes.where(c => value.split(',').some(v => v.trim() === read(c)));
    case 'not-in':
      return codes.where(c => !value.split(',').some(v => v.trim() === read(c)));
    case 'exists':
      return codes.where(c => (read(c) !== undefined) === (value === 'true'));
    case 'regex':
      return matching(codes, value, read);
    default:
      return undefined;
  }
}

function matching(
  codes: Codes,
  pattern: string,
  read: (concept: Codes['system']['concept'][number]) => string | undefined,
): Set<string> | undefined {
  let expression: RegExp;
  try {
    expression = new RegExp(`^(?:${pattern})$`, 'u');
  } catch {
    return undefined;
  }
  return codes.where(c => expression.test(read(c) ?? ''));
}
