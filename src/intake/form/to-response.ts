import type {
  QuestionnaireResponse,
  QuestionnaireResponseItem,
  QuestionnaireResponseItemAnswer,
  Reference,
} from 'fhir/r4.js';
import { type Finding, finding } from '../../findings/finding.js';
import { parseCase } from '../../record/parse.js';
import { pathText } from '../../record/path.js';
import { decodeUtf8, type Tree } from '../../record/read.js';
import type { Identifier } from '../../record/schema/fields.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { isGroup, treeIn } from '../../record/tree.js';
import { type FormOptions, formAddress } from './address.js';
import { formNodes } from './model.js';
import { type CodesItem, type FormNode, type GroupNode, isGroupNode, type QuestionNode } from './node.js';
import { pictured } from './pictures.js';

export interface ToResponseOptions extends FormOptions {
  /** When the response is made, ISO 8601 with offset; when the report was signed where absent. */
  readonly authored?: string;
  /** IANA zone for a record that names none. */
  readonly timeZone?: string;
}

export interface ToResponse {
  /** Absent where the record cannot be read as a whole. */
  readonly response?: QuestionnaireResponse;
  readonly findings: readonly Finding[];
}

type Path = readonly PropertyKey[];

/** A case record (YAML or JSON) as answers to the form. Every text of the record is in it as it was written. */
export function toResponse(input: string | Uint8Array, options: ToResponseOptions = {}): ToResponse {
  const { record, findings } = parseCase(input, options);
  const decoded = typeof input === 'string' ? { text: input } : decodeUtf8(input);
  const tree = 'text' in decoded ? treeIn(decoded.text) : undefined;
  if (!record || !isGroup(tree)) return { findings };
  const missed: Finding[] = [];
  const item = itemsFor(formNodes, tree, [], missed);
  return { response: { ...headOf(record, options), item }, findings: [...findings, ...missed] };
}

function headOf(record: CaseRecord, options: ToResponseOptions): QuestionnaireResponse {
  const { patient, team, report } = record;
  const { encounter, order } = record.case;
  const authored = options.authored ?? report.change?.at?.iso ?? report.signedAt?.iso;
  const author = team.find(({ key }) => key === report.author);
  const { version } = options;
  return {
    resourceType: 'QuestionnaireResponse',
    ...(order && { basedOn: [referenceTo('ServiceRequest', order)] }),
    questionnaire: `${formAddress(options)}${version === undefined ? '' : `|${version}`}`,
    status: 'completed',
    subject: {
      ...referenceTo('Patient', patient.identifiers[0]),
      ...(patient.name !== undefined && { display: patient.name }),
    },
    ...(encounter && { encounter: referenceTo('Encounter', encounter) }),
    ...(authored !== undefined && { authored }),
    ...(author && { author: { display: author.name } }),
  };
}

const referenceTo = (type: string, identifier: Identifier | undefined): Reference => ({
  type,
  ...(identifier && { identifier: { system: identifier.system, value: identifier.value } }),
});

/** The items of a group; those without an answer are left out. */
function itemsFor(
  nodes: readonly FormNode[],
  group: Readonly<Record<string, Tree>>,
  path: Path,
  missed: Finding[],
): QuestionnaireResponseItem[] {
  return nodes.flatMap(node => {
    const value = Object.hasOwn(group, node.name) ? group[node.name] : undefined;
    return value === undefined ? [] : itemsOfField(node, value, [...path, node.name], missed);
  });
}

function itemsOfField(
  node: FormNode,
  value: Tree,
  path: Path,
  missed: Finding[],
): QuestionnaireResponseItem[] {
  const { linkId } = node;
  const isNone = typeof value === 'string' && value === 'none';
  if (node.kind === 'none') return isNone ? [{ linkId, answer: [{ valueCoding: { code: 'none' } }] }] : [];
  if (!isGroupNode(node)) {
    const answer = (Array.isArray(value) ? value : [value]).flatMap(one =>
      answersTo(node, one, path, missed),
    );
    return answer.length > 0 ? [{ linkId, answer }] : [];
  }
  const filled = (entry: Tree, at: Path): QuestionnaireResponseItem[] => {
    const fields = isGroup(entry) && !isShort(node, entry) ? entry : longOf(node, entry);
    const item = itemsFor(node.children, fields, at, missed);
    return item.length > 0 ? [{ linkId, item }] : [];
  };
  switch (node.kind) {
    case 'list':
      return Array.isArray(value) ? value.flatMap((entry, index) => filled(entry, [...path, index])) : [];
    case 'keyed':
      return Object.entries(isGroup(value) ? value : {}).map(([key, entry]) => {
        const answer = [{ valueString: key }];
        const [item] = filled(entry, [...path, key]);
        return { linkId, item: [{ linkId: node.key.linkId, answer }, ...(item?.item ?? [])] };
      });
    case 'group': {
      const items = typeof value === 'string' && node.short === undefined ? [] : filled(value, path);
      if (items.length > 0 || !node.present || !isGroup(value)) return items;
      return [{ linkId, item: [{ linkId: node.present.linkId, answer: [{ valueBoolean: true }] }] }];
    }
  }
}

/** True for text with its codes in place of a group that has them in one of its fields. */
const isShort = (node: GroupNode, entry: Readonly<Record<string, Tree>>) =>
  node.kind !== 'keyed' && node.short !== undefined && node.short !== 'text' && Object.hasOwn(entry, 'text');

/** The group that a short entry stands for. */
const longOf = (node: GroupNode, entry: Tree): Readonly<Record<string, Tree>> =>
  node.kind === 'keyed' || node.short === undefined ? {} : { [node.short]: entry };

/** Whole numbers that FHIR's integer can hold. */
const MOST = 2_147_483_647;

function answersTo(
  node: QuestionNode,
  value: Tree,
  path: Path,
  missed: Finding[],
): QuestionnaireResponseItemAnswer[] {
  switch (node.kind) {
    case 'yes-no':
      return [{ valueBoolean: value === true || value === 'yes' || value === 'true' }];
    case 'codes':
      return [{ valueCoding: codingOf(node, value) }];
    case 'coded': {
      if (!isGroup(value)) return [{ valueString: String(value) }];
      const codes = Array.isArray(value['codes']) ? value['codes'] : [];
      const { linkId } = node.codes;
      const answer = codes.map(code => ({ valueCoding: codingOf(node.codes, code) }));
      return [
        { valueString: String(value['text']), ...(codes.length > 0 && { item: [{ linkId, answer }] }) },
      ];
    }
    case 'choice':
      return [
        node.words.includes(String(value))
          ? { valueCoding: { code: String(value) } }
          : { valueString: String(value) },
      ];
    case 'whole':
      if (Number(value) <= MOST) return [{ valueInteger: Number(value) }];
      missed.push(finding('form.not-answered', pathText(path), { value: String(value), limit: `${MOST}` }));
      return [];
    case 'date':
      return [{ valueDate: String(value) }];
    case 'text':
      // A scan of blanks is none: FHIR has no text without a character to be seen.
      if (String(value).trim() === '') return [];
      return [{ valueString: node.scanned ? pictured(String(value)) : String(value) }];
    case 'none':
      return [];
  }
}

const codingOf = ({ fields }: CodesItem, code: Tree) =>
  Object.fromEntries(
    fields.flatMap(field => {
      const value = isGroup(code) ? code[field] : undefined;
      return value === undefined ? [] : [[field, String(value)]];
    }),
  );
