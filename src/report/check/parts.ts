import Handlebars from 'handlebars';
import type { TemplateSources } from '../render/templates.js';

/** What the helper `block` can name, beside the partials that a template names itself. */
const BLOCKS = ['shared/markup/facts', 'shared/markup/table'];

/** Templates that a template calls, by name. A name that is worked out may only be that of a block. */
export function partsOf(source: string): { readonly names: readonly string[]; readonly worked: boolean } {
  const names: string[] = [];
  let worked = false;
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) {
      for (const child of node) visit(child);
      return;
    }
    if (typeof node !== 'object' || node === null) return;
    if ('type' in node && /^Partial(Block)?Statement$/.test(String(node.type)) && 'name' in node) {
      const called = pathOf(node.name);
      if (called !== undefined) names.push(called);
      else if (isBlock(node.name)) names.push(...BLOCKS);
      else worked = true;
    }
    for (const child of Object.values(node)) visit(child);
  };
  visit(Handlebars.parse(source));
  return { names, worked };
}

const pathOf = (node: unknown): string | undefined => {
  if (typeof node !== 'object' || node === null || !('type' in node)) return undefined;
  if (node.type === 'PathExpression' && 'original' in node) return String(node.original);
  return node.type === 'StringLiteral' && 'value' in node ? String(node.value) : undefined;
};

const isBlock = (node: unknown): boolean =>
  typeof node === 'object' && node !== null && 'path' in node && pathOf(node.path) === 'block';

/** Every template that takes part when one is rendered, itself among them. */
export function takingPart(root: string, sources: TemplateSources): ReadonlySet<string> {
  const seen = new Set<string>();
  const visit = (name: string) => {
    const source = sources.get(name);
    if (source === undefined || seen.has(name)) return;
    seen.add(name);
    for (const called of partsOf(source).names) visit(called);
  };
  visit(root);
  return seen;
}
