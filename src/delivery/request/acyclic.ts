import {
  type ExactJson,
  isExactArray,
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
  withEntries,
} from '../answer/exact-json.js';

/** What is written about the others, and so after them: an address back to it is the one to do without. */
const ABOUT_OTHERS: ReadonlySet<string> = new Set([
  'Composition',
  'DiagnosticReport',
  'DocumentReference',
  'Provenance',
]);

/**
 * A submission whose resources can be written one after the other. Where they refer to each other in a circle, the
 * way back is by business identifier (a logical reference) in place of an address, first where it leads to a
 * document. What has no identifier stays as it is, and with it the circle. Pure.
 *
 * @returns the text, and each reference that changed as `Type -> Type`; without any, the text as it was given.
 */
export function withoutCircles(text: string): { readonly text: string; readonly changed: readonly string[] } {
  const bundle = parseExact(text);
  const nodes = listAt(bundle, 'entry').map(nodeOf);
  const byUrl = new Map(nodes.map(node => [node.url, node]));
  const cut = new Map<Node, Set<string>>();
  const edges = (node: Node) =>
    [...node.targets].flatMap(url => (cut.get(node)?.has(url) ? [] : (byUrl.get(url) ?? [])));
  const leave = (node: Node, target: Node) => {
    cut.set(node, (cut.get(node) ?? new Set()).add(target.url));
  };
  for (const node of nodes)
    for (const target of edges(node))
      if (ABOUT_OTHERS.has(target.type) && target.identifier && reaches(target, node, edges))
        leave(node, target);
  for (const node of nodes)
    for (const target of edges(node))
      if (target !== node && target.identifier && reaches(target, node, edges)) leave(node, target);
  if (cut.size === 0) return { text, changed: [] };
  const without = withEntries(bundle, (item, index) => {
    const node = nodes[index];
    const urls = node && cut.get(node);
    if (!urls || item['resource'] === undefined) return item;
    return { ...item, resource: byIdentifier(item['resource'], urls, byUrl) };
  });
  const changed = [...cut].flatMap(([node, urls]) =>
    [...urls].map(url => `${node.type} -> ${byUrl.get(url)?.type}`),
  );
  return { text: `${without}\n`, changed: [...new Set(changed)].sort() };
}

interface Node {
  readonly url: string;
  readonly type: string;
  readonly targets: ReadonlySet<string>;
  readonly identifier?: { readonly system: string; readonly value: string };
}

function nodeOf(entry: ExactJson): Node {
  const resource = objectAt(entry, 'resource');
  const listed = resource?.['identifier'];
  const first = isExactArray(listed) ? listed[0] : listed;
  const system = textAt(first, 'system');
  const value = textAt(first, 'value');
  const targets = new Set<string>();
  const visit = (inner: ExactJson, key: string): void => {
    if (typeof inner === 'string' && key === 'reference' && inner.startsWith('urn:')) targets.add(inner);
    else if (isExactArray(inner)) for (const item of inner) visit(item, '');
    else if (isExactObject(inner)) for (const [k, v] of Object.entries(inner)) visit(v, k);
  };
  if (resource) visit(resource, '');
  return {
    url: textAt(entry, 'fullUrl') ?? '',
    type: textAt(resource, 'resourceType') ?? '',
    targets,
    ...(system !== undefined && value !== undefined && { identifier: { system, value } }),
  };
}

function reaches(from: Node, to: Node, edges: (node: Node) => readonly Node[]): boolean {
  const seen = new Set<Node>([from]);
  const waiting = [from];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    if (node === to) return true;
    for (const next of edges(node)) {
      if (seen.has(next)) continue;
      seen.add(next);
      waiting.push(next);
    }
  }
  return false;
}

function byIdentifier(
  value: ExactJson,
  urls: ReadonlySet<string>,
  byUrl: ReadonlyMap<string, Node>,
): ExactJson {
  if (isExactArray(value)) return value.map(item => byIdentifier(item, urls, byUrl));
  if (!isExactObject(value)) return value;
  const address = textAt(value, 'reference');
  const target = address !== undefined && urls.has(address) ? byUrl.get(address) : undefined;
  if (!target?.identifier)
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, byIdentifier(v, urls, byUrl)]));
  const { reference: _address, ...rest } = value;
  return { type: target.type, identifier: { ...target.identifier }, ...rest };
}
