import { sureText } from './charset.js';

/** One element; `_rawValue` keeps the text of a string as it stands, digits included. */
interface DicomElement {
  readonly vr: string;
  readonly Value?: readonly unknown[];
  readonly _rawValue?: unknown;
}

/** A data set or an item as the library gives it, by tags of eight hexadecimal digits. */
export type DicomSet = Readonly<Record<string, DicomElement>>;

/** A coded value. */
export interface DoseCode {
  readonly code: string;
  readonly scheme: string;
  readonly meaning: string;
}

/** One content item of a structured report (PS3.3, C.17.3). */
export interface ContentItem {
  readonly type: string;
  readonly concept?: DoseCode;
  readonly coded?: DoseCode;
  /** Value of TEXT, UIDREF, DATETIME, PNAME. */
  readonly text?: string;
  /** Value of NUM as it stands, and the UCUM code of its unit. */
  readonly number?: { readonly digits: string; readonly unit: string };
  readonly children: readonly ContentItem[];
}

/** First value of a string element, blanks around it left out; undefined where it is absent, empty, or not sure. */
export function textOf(set: DicomSet, tag: string, foreign = true): string | undefined {
  const raw = set[tag]?._rawValue ?? set[tag]?.Value;
  const first: unknown = Array.isArray(raw) ? raw[0] : raw;
  const text = typeof first === 'string' ? first.replace(/^[\s\0]+|[\s\0]+$/g, '') : '';
  return text === '' ? undefined : sureText(text, foreign);
}

/** Items of a sequence. */
export function itemsOf(set: DicomSet, tag: string): readonly DicomSet[] {
  const element = set[tag];
  return element?.vr === 'SQ' ? ((element.Value ?? []) as readonly DicomSet[]) : [];
}

function codeOf(set: DicomSet, tag: string, foreign: boolean): DoseCode | undefined {
  const [item] = itemsOf(set, tag);
  const code = item && (textOf(item, '00080100') ?? textOf(item, '00080119') ?? textOf(item, '00080120'));
  if (item === undefined || code === undefined) return undefined;
  return {
    code,
    scheme: textOf(item, '00080102') ?? '',
    meaning: textOf(item, '00080104', foreign) ?? code,
  };
}

const VALUES = ['0040A160', '0040A124', '0040A120', '0040A121', '0040A122', '0040A123'];

/** The content tree of a document, from its root. The depth is that of the data set, which has a limit. */
export function contentOf(set: DicomSet, foreign: boolean): ContentItem {
  const concept = codeOf(set, '0040A043', foreign);
  const coded = codeOf(set, '0040A168', foreign);
  const text = VALUES.map(tag => textOf(set, tag, foreign)).find(value => value !== undefined);
  const [measured] = itemsOf(set, '0040A300');
  const digits = measured && textOf(measured, '0040A30A');
  return {
    type: textOf(set, '0040A040') ?? '',
    ...(concept && { concept }),
    ...(coded && { coded }),
    ...(text !== undefined && { text }),
    ...(measured !== undefined &&
      digits !== undefined && {
        number: { digits, unit: codeOf(measured, '004008EA', foreign)?.code ?? '' },
      }),
    children: itemsOf(set, '0040A730').map(child => contentOf(child, foreign)),
  };
}

/** Children under a concept of DICOM's own scheme. */
export function childrenOf(item: ContentItem, code: string): readonly ContentItem[] {
  return item.children.filter(({ concept }) => concept?.scheme === 'DCM' && concept.code === code);
}

/** The first of them. */
export function childOf(item: ContentItem, code: string): ContentItem | undefined {
  return childrenOf(item, code)[0];
}
