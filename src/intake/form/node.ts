/** One item of the form: where the record has it, and how it is answered. */
export interface FormItem {
  /** Place in the record, without list places and keys: `case.id`, `devices.lot`. */
  readonly linkId: string;
  /** Name of the field in the record. */
  readonly name: string;
  /** What the schema says of it. */
  readonly help?: string;
  /** Needed wherever its group is filled in. */
  readonly required: boolean;
}

/** A question that is answered with text, exactly as the record has it. */
export interface TextItem extends FormItem {
  readonly kind: 'text';
  readonly repeats: boolean;
  readonly example?: string;
  readonly pattern?: string;
  /** A label as scanned: its control characters are written as their pictures, since FHIR text has none. */
  readonly scanned?: true;
}

/** A question with an answer of its own FHIR type. */
export interface PlainItem extends FormItem {
  readonly kind: 'date' | 'whole' | 'yes-no';
  readonly repeats: false;
}

/** A question with words to choose from; `open`: or text. */
export interface ChoiceItem extends FormItem {
  readonly kind: 'choice';
  readonly words: readonly string[];
  readonly open: boolean;
  readonly repeats: boolean;
  readonly example?: string;
}

/** Codes of code systems; `fields` of each that the record keeps. */
export interface CodesItem extends FormItem {
  readonly kind: 'codes';
  readonly fields: readonly string[];
  readonly repeats: true;
}

/** Text with codes beneath it. */
export interface CodedItem extends FormItem {
  readonly kind: 'coded';
  readonly codes: CodesItem;
  readonly repeats: boolean;
}

/** A group of fields. */
export interface GroupItem extends FormItem {
  readonly kind: 'group';
  readonly children: readonly FormNode[];
  /** Stands for the group where nothing else is in it. */
  readonly present?: PlainItem;
  /** The child that the record may have in place of the group. */
  readonly short?: string;
}

/** A list of groups. */
export interface ListItem extends FormItem {
  readonly kind: 'list';
  readonly children: readonly FormNode[];
  /** The child that an entry of the record may have in place of the group. */
  readonly short?: string;
}

/** Groups under keys. */
export interface KeyedItem extends FormItem {
  readonly kind: 'keyed';
  readonly key: TextItem;
  readonly children: readonly FormNode[];
}

/** `none`, beside the group or list that says otherwise. */
export interface NoneItem extends FormItem {
  readonly kind: 'none';
}

export type QuestionNode = TextItem | PlainItem | ChoiceItem | CodesItem | CodedItem | NoneItem;
export type GroupNode = GroupItem | ListItem | KeyedItem;
export type FormNode = QuestionNode | GroupNode;

/** True for an item that holds items and no answer. */
export const isGroupNode = (node: FormNode): node is GroupNode =>
  node.kind === 'group' || node.kind === 'list' || node.kind === 'keyed';

/** The items of a group in the order of the form, the key or the word for an empty group first. */
export function itemsOf(node: GroupNode): readonly FormNode[] {
  if (node.kind === 'keyed') return [node.key, ...node.children];
  return node.kind === 'group' && node.present ? [node.present, ...node.children] : node.children;
}
