import type { Element, Extension, Questionnaire, QuestionnaireItem } from 'fhir/r4.js';
import { languages } from '../../findings/languages.js';
import { lexicon } from '../../findings/say.js';
import { fields } from '../../findings/words/en/fields.js';
import { MAX_ENTRIES, MAX_TEXT } from '../../record/bounds.js';
import { type FormOptions, formAddress } from './address.js';
import { formNodes, nodeByLinkId } from './model.js';
import { type FormNode, isGroupNode, itemsOf } from './node.js';

const BASE = 'http://hl7.org/fhir/StructureDefinition/';

/** Which of two versions is the later one, which SDC asks for (sdc-2). */
const VERSIONED: Extension = {
  url: 'http://hl7.org/fhir/5.0/StructureDefinition/extension-Questionnaire.versionAlgorithm[x]',
  valueCoding: { system: 'http://hl7.org/fhir/version-algorithm', code: 'semver' },
};

/** Fields in which people write sentences. */
const LONG = /(?:^advice\.(?!contact)|\.(?:note|description|imaging|observations)$|^conclusion$)/;

const TYPES = {
  date: 'date',
  whole: 'integer',
  'yes-no': 'boolean',
  codes: 'open-choice',
  coded: 'string',
  none: 'choice',
  group: 'group',
  list: 'group',
  keyed: 'group',
} as const;

/**
 * The case record as a FHIR R4 Questionnaire, one item for each field. Quantities, times and spans are typed as text,
 * as in the record, so that no digit is lost. The same options give the same form.
 */
export function questionnaire(options: FormOptions = {}): Questionnaire {
  return {
    resourceType: 'Questionnaire',
    id: 'case-record',
    language: 'en',
    ...(options.version !== undefined && { extension: [VERSIONED] }),
    url: formAddress(options),
    ...(options.version !== undefined && { version: options.version }),
    name: 'CasetallyCaseRecord',
    title: 'Record of an image-guided case',
    status: 'active',
    experimental: false,
    subjectType: ['Patient'],
    publisher: 'Casetally',
    description:
      'One image-guided case: who, why, every device, every event, what stays, what next. Link ids are the fields of the case record. What was not recorded is left out; "none" is said where there was none.',
    item: formNodes.map(itemOf),
  };
}

function itemOf(node: FormNode): QuestionnaireItem {
  const { linkId, required } = node;
  const extension = [...formatOf(node), ...mostOf(node)];
  const children = [...helpOf(node), ...beneath(node).map(itemOf)];
  const words = node.kind === 'choice' ? node.words : node.kind === 'none' ? ['none'] : [];
  return {
    linkId,
    ...(extension.length > 0 && { extension }),
    ...labelOf(node),
    type: typeOf(node),
    ...(nodeByLinkId.has(`${linkId}.none`) && {
      // Not `exists`: R4 states the rule about its answer (que-7) so that no answer keeps it.
      enableWhen: [{ question: `${linkId}.none`, operator: '!=', answerCoding: { code: 'none' } }],
    }),
    ...(required && { required }),
    ...(repeatsIn(node) && { repeats: true }),
    ...((node.kind === 'text' || node.kind === 'coded') && { maxLength: MAX_TEXT }),
    ...(words.length > 0 && {
      answerOption: words.map(word => ({ valueCoding: { code: word, display: word } })),
    }),
    ...(children.length > 0 && { item: children }),
  };
}

function typeOf(node: FormNode): QuestionnaireItem['type'] {
  if (node.kind === 'text') return LONG.test(node.linkId) ? 'text' : 'string';
  if (node.kind === 'choice') return node.open ? 'open-choice' : 'choice';
  return TYPES[node.kind];
}

const repeatsIn = (node: FormNode) =>
  node.kind === 'list' || node.kind === 'keyed' || ('repeats' in node && node.repeats);

function beneath(node: FormNode): readonly FormNode[] {
  if (isGroupNode(node)) return itemsOf(node);
  return node.kind === 'coded' ? [node.codes] : [];
}

/** How an answer is written, by an example, and what it must look like. */
function formatOf(node: FormNode): Extension[] {
  if (node.kind !== 'text' && node.kind !== 'choice') return [];
  const { example } = node;
  const pattern = node.kind === 'text' ? node.pattern : undefined;
  return [
    ...(example === undefined ? [] : [{ url: `${BASE}entryFormat`, valueString: example }]),
    ...(pattern === undefined ? [] : [{ url: `${BASE}regex`, valueString: pattern }]),
  ];
}

/** How many entries the record takes, where there is a limit. */
function mostOf({ linkId }: FormNode): Extension[] {
  const most = MAX_ENTRIES[linkId];
  return most === undefined ? [] : [{ url: `${BASE}questionnaire-maxOccurs`, valueInteger: most }];
}

/** What the schema says of a field, as help beside it. */
function helpOf({ linkId, help }: FormNode): QuestionnaireItem[] {
  if (help === undefined) return [];
  const coding = [{ system: 'http://hl7.org/fhir/questionnaire-item-control', code: 'help' }];
  return [
    {
      linkId: `${linkId}.help`,
      extension: [{ url: `${BASE}questionnaire-itemControl`, valueCodeableConcept: { coding } }],
      text: help,
      type: 'display',
    },
  ];
}

type FieldKey = keyof typeof fields;
const isFieldKey = (key: string): key is FieldKey => Object.hasOwn(fields, key);

/** The name of the field, with its translations. */
function labelOf(node: FormNode): Pick<QuestionnaireItem, 'text' | '_text'> {
  const entry = `entry.${node.name}`;
  const field = `field.${node.name}`;
  const key = (node.kind === 'list' || node.kind === 'keyed') && isFieldKey(entry) ? entry : field;
  if (!isFieldKey(key)) return { text: capital(node.name) };
  const said = capital(fields[key]);
  if (node.kind === 'none') return { text: `${said}: none` };
  return { text: said, _text: translations(key) };
}

function translations(key: FieldKey): Element {
  return {
    extension: languages
      .filter(language => !language.startsWith('en'))
      .map(language => ({
        url: `${BASE}translation`,
        extension: [
          { url: 'lang', valueCode: language },
          { url: 'content', valueString: capital(lexicon(language).say(key)) },
        ],
      })),
  };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
