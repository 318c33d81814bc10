import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';

/** What a text says where in an organ something lies. */
interface Scale {
  readonly read: (text: string) => readonly string[];
}

const order: Readonly<Record<string, number>> = {
  first: 1,
  second: 2,
  third: 3,
  fourth: 4,
  fifth: 5,
  sixth: 6,
  seventh: 7,
  eighth: 8,
  ninth: 9,
  tenth: 10,
  eleventh: 11,
  twelfth: 12,
};
const letters: Readonly<Record<string, string>> = {
  cervical: 'C',
  thoracic: 'T',
  dorsal: 'T',
  lumbar: 'L',
  sacral: 'S',
};

/** A disc and a root have two: 'L4/5', 'L5-S1'. */
const spans = /\b([CTDLS])(\d{1,2})(?:\s?[-/]\s?([CTDLS])?(\d{1,2}))?\b/g;
const spoken = new RegExp(
  `\\b(${Object.keys(order).join('|')}) (cervical|thoracic|dorsal|lumbar|sacral)\\b`,
  'gi',
);
const most: Readonly<Record<string, number>> = { C: 7, T: 12, L: 5, S: 5 };

/** The vertebrae that a text names, in one way of writing. */
export function vertebrae(text: string): string[] {
  const found = [...text.matchAll(spans)].flatMap(([, letter = '', one = '', next, two]) => {
    const first = letter === 'D' ? 'T' : letter;
    return [`${first}${one}`, ...(two === undefined ? [] : [`${next ?? first}${two}`])];
  });
  const words = [...text.matchAll(spoken)].map(
    ([, number = '', region = '']) =>
      `${letters[region.toLowerCase()] ?? ''}${order[number.toLowerCase()] ?? ''}`,
  );
  return [...found, ...words].filter(level => Number(level.slice(1)) <= (most[level.charAt(0)] ?? 0));
}

const all = (pattern: RegExp) => (text: string) =>
  [...text.matchAll(pattern)].map(([whole, one]) => (one ?? whole).toLowerCase());

const roman: Readonly<Record<string, string>> = {
  i: '1',
  ii: '2',
  iii: '3',
  iv: '4',
  v: '5',
  vi: '6',
  vii: '7',
  viii: '8',
};

const lobes: Readonly<Record<string, string>> = { U: 'upper', M: 'middle', L: 'lower' };
const poles: Readonly<Record<string, string>> = {
  superior: 'upper',
  inferior: 'lower',
  middle: 'mid',
  interpolar: 'mid',
};

const scales: readonly Scale[] = [
  { read: vertebrae },
  {
    read: text => [
      ...all(/\b(upper|middle|lower)[- ]lobe\b/gi)(text),
      ...[...text.matchAll(/\b[LR]([UML])L\b/g)].map(([, letter = '']) => lobes[letter] ?? ''),
    ],
  },
  {
    read: text =>
      all(/\b(upper|lower|mid|middle|superior|inferior)[- ]pole\b|\b(interpolar)\b/gi)(text).map(
        one => poles[one] ?? one,
      ),
  },
  { read: text => all(/\bsegment (\d[ab]?|[IV]{1,4})\b/gi)(text).map(one => roman[one] ?? one) },
];

/** Only the spine tells levels by one letter; a stent of 'S3' or 'C4' is none. */
const spine =
  /\b(?:vertebr\w*|spin(?:e|al)|kyphoplasty|cementoplasty|lumbar|thoracic|sacr\w+|disc|facet|pedicle|epidural|nerve root|fracture)\b/i;

const atLevel = /\b(?:roots?|pedicle|vertebral body|lobe|pole)\b/i;
/** Texts that compare with other levels or tell of earlier ones. */
export const earlierOrBeside =
  /\b(?:(?<!-)old|previous(?:ly)?|earlier|above|below|adjacent|neighbou?r\w*|normal|spared|compared?|other)\b/i;

/** The level of a vertebra, or the lobe, pole or segment of an organ, in title, plan, targets and conclusion. */
export function checkLevels(record: CaseRecord): Finding[] {
  const targets = Object.entries(record.targets ?? {}).map(([key, { what }]) => ({
    path: `targets.${key}.what`,
    text: what.text,
  }));
  const others = [
    { path: 'case.procedure', text: record.case.procedure?.text ?? '' },
    { path: 'planned', text: record.planned?.text ?? '' },
    { path: 'conclusion', text: record.conclusion ?? '' },
    { path: 'outcome.text', text: record.outcome?.text ?? '' },
    { path: 'indication.text', text: record.indication.text },
    { path: 'before.imaging', text: record.before?.imaging ?? '' },
    ...entriesOf(record.left).map(({ site }, i) => ({ path: `left[${i}].site`, text: site?.text ?? '' })),
    // A way in may lie at another level, but not through the pedicle of another vertebra.
    ...(record.access ?? []).map(({ site }, i) => ({
      path: `access[${i}].site`,
      text: /\bpedicle\b/i.test(site.text) ? site.text : '',
    })),
    ...(record.findings ?? []).map(({ text, about }, i) => ({
      path: `findings[${i}].text`,
      text: about !== undefined || targets.length === 1 ? text : '',
    })),
    ...(record.events ?? []).flatMap(({ result, into }, i) => [
      { path: `events[${i}].result`, text: atLevel.test(result ?? '') ? (result ?? '') : '' },
      {
        path: `events[${i}].into`,
        text: /\bpedicle\b|\broot\b/i.test(into?.text ?? '') ? (into?.text ?? '') : '',
      },
    ]),
  ].filter(({ text }) => text !== '' && !earlierOrBeside.test(text));
  return scales.flatMap(({ read }) => {
    const isSpine = read === vertebrae;
    if (isSpine && ![...targets, ...others].some(({ text }) => spine.test(text))) return [];
    const there = targets
      .map(place => ({ ...place, levels: read(place.text) }))
      .filter(({ levels }) => levels.length > 0);
    const known = new Set(there.flatMap(({ levels }) => levels));
    if (known.size === 0) return [];
    return others.flatMap(({ path, text }) => {
      const said = read(text);
      if (said.length === 0 || said.some(level => known.has(level))) return [];
      return [
        finding('clinical.level-differs', path, {
          text,
          other: there[0]?.text ?? '',
          place: there[0]?.path ?? '',
        }),
      ];
    });
  });
}
