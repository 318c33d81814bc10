import { z } from 'zod';
import { scan } from '../../record/schema/fields.js';
import { recordSchema } from '../../record/schema/record.js';
import { type CodesItem, type FormItem, type FormNode, type GroupItem, isGroupNode } from './node.js';

/** Fields that say nothing of the case: an address for editors, and the version of the format, which is always 1. */
export const NOT_ASKED: ReadonlySet<string> = new Set(['$schema', 'casetally']);

/** What stands in a field, with what the schema says around it taken off. */
interface Bare {
  readonly options: readonly z.core.$ZodType[];
  readonly required: boolean;
  readonly help?: string;
  readonly example?: string;
}

function bare(schema: z.core.$ZodType): Bare {
  let required = true;
  let help: string | undefined;
  let example: string | undefined;
  const open = (one: z.core.$ZodType): z.core.$ZodType[] => {
    const { description, examples } = z.globalRegistry.get(one) ?? {};
    help ??= description;
    const [first]: readonly unknown[] = Array.isArray(examples) ? examples : [];
    if (typeof first === 'string') example ??= first;
    if (one instanceof z.ZodOptional) {
      required = false;
      return open(one.unwrap());
    }
    if (one instanceof z.ZodPipe) return open(one.in);
    return one instanceof z.ZodUnion ? one.options.flatMap(open) : [one];
  };
  const options = open(schema);
  return {
    options,
    required,
    ...(help !== undefined && { help }),
    ...(example !== undefined && { example }),
  };
}

function childrenOf(schema: z.core.$ZodType, path: string): FormNode[] {
  const [group] = bare(schema).options;
  if (!(group instanceof z.ZodObject)) throw new TypeError(`${path} is no group of fields`);
  return Object.entries(group.shape).flatMap(([name, field]) =>
    field instanceof z.ZodType ? nodesOf(field, path === '' ? name : `${path}.${name}`, name) : [],
  );
}

/** A field is one item, or two where the record may say `none` of it. */
function nodesOf(schema: z.core.$ZodType, linkId: string, name: string): FormNode[] {
  const { options, required, help, example } = bare(schema);
  const item: FormItem = { linkId, name, required, ...(help !== undefined && { help }) };
  const rest = options.filter(option => !saysNone(option));
  const [first] = rest;
  const words = rest.flatMap(wordsOf);
  if (rest.length < options.length && (first instanceof z.ZodArray || first instanceof z.ZodObject))
    return [
      { kind: 'none', linkId: `${linkId}.none`, name, required: false },
      ...nodesOf(first, linkId, name).map(node => ({ ...node, ...item, required: false })),
    ];
  const list = rest.find(option => option instanceof z.ZodArray);
  if (list) return [listNode(list.element, item)];
  const groups = rest.filter(option => option instanceof z.ZodObject);
  // Text with codes alone is the short way of a group that has more.
  const group = groups.find(one => !isTextWithCodes(one)) ?? groups[0];
  if (group) return [groupNode(group, rest, item)];
  if (first instanceof z.ZodRecord)
    return [
      {
        ...{ kind: 'keyed', ...item },
        key: {
          ...{ kind: 'text', linkId: `${linkId}.key`, name: 'key', required: true, repeats: false },
          help: 'Short name that other lines use',
          ...patternOf(first.keyType),
        },
        children: childrenOf(first.valueType, linkId),
      },
    ];
  if (rest.some(option => option instanceof z.ZodBoolean))
    return [{ kind: 'yes-no', ...item, repeats: false }];
  if (rest.some(option => option instanceof z.ZodNumber) && !rest.some(isAnyText))
    return [{ kind: 'whole', ...item, repeats: false }];
  const shown = example === undefined ? {} : { example };
  if (words.length > 0) {
    const open = rest.some(isAnyText);
    const all = options.flatMap(wordsOf);
    return [{ kind: 'choice', ...item, words: all, open, repeats: false, ...(open && shown) }];
  }
  const pattern = patternOf(first);
  if (pattern.pattern === DAY) return [{ kind: 'date', ...item, repeats: false }];
  const scanned = rest.includes(scan) ? { scanned: true as const } : {};
  return [{ kind: 'text', ...item, repeats: false, ...shown, ...pattern, ...scanned }];
}

function listNode(element: z.core.$ZodType, item: FormItem): FormNode {
  const inner = nodesOf(element, item.linkId, item.name);
  const [node] = inner;
  if (!node || inner.length > 1) throw new TypeError(`${item.linkId} is a list that no form can show`);
  if (node.kind === 'group') {
    const { children, short } = node;
    return { kind: 'list', ...item, children, ...(short !== undefined && { short }) };
  }
  if (node.kind === 'text' || node.kind === 'coded' || node.kind === 'choice')
    return { ...node, ...item, repeats: true };
  // Codes come in lists: a list of what looks like one is that list.
  if (node.kind === 'codes') return { ...node, ...item };
  throw new TypeError(`${item.linkId} is a list that no form can show`);
}

function groupNode(group: z.ZodObject, options: readonly z.core.$ZodType[], item: FormItem): FormNode {
  const fields = Object.keys(group.shape);
  const { linkId, required } = item;
  if (fields.includes('system') && fields.includes('code'))
    return { kind: 'codes', ...item, fields, repeats: true };
  if (isTextWithCodes(group)) {
    const codes: CodesItem = {
      ...{ kind: 'codes', linkId: `${linkId}.codes`, name: 'codes', required: false, repeats: true },
      fields: ['system', 'code', 'display', 'version'],
    };
    return { kind: 'coded', ...item, codes, repeats: false };
  }
  const children = childrenOf(group, linkId);
  const made: GroupItem = { kind: 'group', ...item, children };
  if (options.length > 1) return withShort(made, options, children);
  // A group that needs nothing may stand empty and still say something: a device that was there before.
  if (required || children.some(child => child.required)) return made;
  const present = { linkId: `${linkId}.present`, name: 'present', required: false, repeats: false } as const;
  return { ...made, present: { kind: 'yes-no', ...present, help: 'Recorded, without further details' } };
}

/** A record may have one text in place of the group: a name as it is written, a condition without its course. */
function withShort(
  group: GroupItem,
  options: readonly z.core.$ZodType[],
  children: readonly FormNode[],
): FormNode {
  const named = children.find(child => child.kind === 'coded' && child.required);
  if (named) return { ...group, short: named.name };
  const text: FormNode = {
    ...{ kind: 'text', linkId: `${group.linkId}.text`, name: 'text', required: false, repeats: false },
    help: 'As it is written, where its parts are not given',
  };
  if (!options.some(isAnyText)) throw new TypeError(`${group.linkId} is a choice that no form can show`);
  return {
    ...group,
    short: 'text',
    children: [text, ...children.map(child => ({ ...child, required: false }))],
  };
}

const DAY = '^\\d{4}-\\d{2}-\\d{2}$';

const isTextWithCodes = (group: z.ZodObject) => Object.keys(group.shape).join() === 'text,codes';

/** The pattern of a text, where it says more than that there is one. */
function patternOf(schema: unknown): { readonly pattern?: string } {
  if (!(schema instanceof z.ZodString)) return {};
  const { pattern } = z.toJSONSchema(schema, { io: 'input' });
  return pattern === undefined ? {} : { pattern };
}

const saysNone = (option: z.core.$ZodType) => option instanceof z.ZodLiteral && option.values.has('none');

/** Text of any form, whose only rule is how it is read. */
const isAnyText = (option: z.core.$ZodType) => option instanceof z.ZodString && !countPattern(option);

const countPattern = (option: z.ZodString) => patternOf(option).pattern === '^\\d+$';

const wordsOf = (option: z.core.$ZodType): string[] =>
  option instanceof z.ZodEnum ? option.options.map(String) : [];

/** The items of the form, one for each field of the record. */
export const formNodes: readonly FormNode[] = childrenOf(recordSchema({}), '').filter(
  ({ name }) => !NOT_ASKED.has(name),
);

/** Every item of the form under its link id. */
export const nodeByLinkId: ReadonlyMap<string, FormNode> = new Map(
  (function all(nodes: readonly FormNode[]): [string, FormNode][] {
    return nodes.flatMap(node => [
      [node.linkId, node] as [string, FormNode],
      ...(node.kind === 'coded' ? all([node.codes]) : []),
      ...(node.kind === 'keyed' ? all([node.key]) : []),
      ...(node.kind === 'group' && node.present ? all([node.present]) : []),
      ...(isGroupNode(node) ? all(node.children) : []),
    ]);
  })(formNodes),
);
