import type { Language } from '../../../src/findings/languages.js';
import { isWordKey, lexicon } from '../../../src/findings/say.js';
import { formNodes } from '../../../src/intake/form/model.js';
import { type FormNode, isGroupNode } from '../../../src/intake/form/node.js';
import { type TermKind, termKinds } from './terms.js';

/** What keys of a field name. */
export type Referred = 'team' | 'devices' | 'targets' | 'access' | 'specimens' | 'images';

/** A field of the record as the page shows it: made from the schema. */
export interface SheetNode {
  readonly kind: FormNode['kind'];
  /** Place in the record, without list places and keys: `events.do`. */
  readonly place: string;
  readonly name: string;
  readonly label: string;
  /** What the schema says of it; in English. */
  readonly help?: string;
  readonly example?: string;
  readonly required: boolean;
  readonly repeats: boolean;
  /** Words to choose from, each as the record has it and as people read it. */
  readonly words?: readonly { readonly word: string; readonly said: string }[];
  /** Other words may be typed as well. */
  readonly open: boolean;
  readonly refers?: Referred;
  readonly terms?: TermKind;
  /** A time of the case, such as 09:04. */
  readonly moment: boolean;
  readonly children: readonly SheetNode[];
  /** The child that may stand in place of the group. */
  readonly short?: string;
}

const KEY = '^[A-Za-z][A-Za-z0-9_-]*$';

/** Which entries a key names, by the name of its field. */
const referred: Readonly<Record<string, Referred>> = {
  ...{ by: 'team', takenBy: 'team', author: 'team', device: 'devices', replaces: 'devices', with: 'devices' },
  ...{ over: 'devices', through: 'devices', across: 'targets', target: 'targets', about: 'targets' },
  ...{ access: 'access', specimen: 'specimens', image: 'images', from: 'targets' },
};

/** Where the words of a choice have their names, where that is not under the name of the field. */
const named: Readonly<Record<string, string>> = {
  ...{ 'events.do': 'case.do', 'sedation.kind': 'sedation', 'sedation.changes.to': 'sedation' },
  ...{ 'drugs.for': 'purpose', 'targets.flowBefore': 'flow', 'targets.flowAfter': 'flow' },
  ...{ 'outcome.overall': 'success', 'events.state': 'inspected', 'before.consent.status': 'consent' },
  ...{ 'outcome.bloodLoss': 'loss', 'left.purpose': 'meant', 'outcome.followedBy': 'then' },
  ...{ 'case.status': 'caseStatus', 'before.conditions.status': 'conditionStatus' },
};

/** Every field of the record in its order, with its names in a language. */
export function sheetsIn(language: Language): readonly SheetNode[] {
  const { say } = lexicon(language);
  const said = (key: string, otherwise: string) => (isWordKey(key) ? say(key) : otherwise);
  const made = (node: FormNode): SheetNode => {
    const of = named[node.linkId] ?? node.name;
    const isList = node.kind === 'list' || node.kind === 'keyed';
    const isKey = node.kind === 'text' && node.pattern === KEY && node.name !== 'key';
    const terms = termKinds[node.linkId];
    return {
      ...{ kind: node.kind, place: node.linkId, name: node.name, required: node.required },
      label: capital(said(`field.${node.name}`, node.name)),
      ...(node.help !== undefined && { help: node.help }),
      ...('example' in node && node.example !== undefined && { example: node.example }),
      repeats: isList || ('repeats' in node && node.repeats),
      ...(node.kind === 'choice' && {
        words: node.words.map(word => ({ word, said: said(`${of}.${word}`, word) })),
      }),
      open: node.kind === 'choice' && node.open,
      ...(isKey && { refers: referred[node.name] ?? 'devices' }),
      ...(terms && { terms }),
      moment: node.kind === 'text' && node.example === '09:04',
      children: isGroupNode(node) ? node.children.map(made) : [],
      ...((node.kind === 'list' || node.kind === 'group') &&
        node.short !== undefined && { short: node.short }),
    };
  };
  return formNodes.map(made);
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
