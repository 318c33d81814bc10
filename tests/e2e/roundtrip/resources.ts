import { parse } from 'lossless-json';

/** One leaf of a resource, with where it stands; digits as they were written. */
export interface Leaf {
  readonly type: string;
  readonly path: string;
  readonly value: string;
  /** The value with its unit where it is a quantity: `8.5 Fr`. */
  readonly quantity?: { readonly unit: string; readonly code: string };
}

type Node = string | boolean | null | readonly Node[] | { readonly [key: string]: Node };

/** What is written for machines or repeats the paper itself: no fact of its own. */
const NOT_FACTS =
  /^(?:text\.div|text\.status|meta\..*|id|resourceType|language)$|(?:^|\.)(?:reference|fullUrl|url|data|hash|contentType)$/;

/** Every leaf of every resource of a Bundle, but for narratives, references and attachments. */
export function leavesOf(bundleText: string): Leaf[] {
  const bundle = parse(bundleText, undefined, digits => digits) as {
    entry: { resource: { [key: string]: Node } }[];
  };
  return bundle.entry.flatMap(({ resource }) => {
    const type = String(resource['resourceType']);
    const leaves: Leaf[] = [];
    const visit = (node: Node, path: string) => {
      if (Array.isArray(node)) for (const child of node) visit(child, path);
      else if (typeof node === 'object' && node !== null) {
        const { value, unit, code } = node as { [key: string]: Node };
        for (const [key, child] of Object.entries(node)) {
          const at = path === '' ? key : `${path}.${key}`;
          if (
            /(?:^|\.)section\.text\.|(?:^|\.)content\.attachment\./.test(`${at}.`) &&
            type !== 'DocumentReference'
          )
            continue;
          if (key === 'value' && typeof value === 'string' && typeof unit === 'string')
            leaves.push({
              type,
              path: at,
              value,
              quantity: { unit, code: typeof code === 'string' ? code : '' },
            });
          else visit(child, at);
        }
      } else if (!NOT_FACTS.test(path)) leaves.push({ type, path, value: String(node) });
    };
    visit(resource, '');
    return leaves;
  });
}
