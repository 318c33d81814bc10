import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Told, toldAfter } from '../texts.js';
import { inParts, numberOf as numberTold, upTo } from '../told/figure.js';

const count = `(\\d{1,2}|${upTo(12)})`;
/** With a decimal comma too. */
const numberOf = (text: string): number => numberTold(text.replace(',', '.'));

/** What was before, is to come, or might be. */
const aside =
  /\b(?:previous(?:ly)?|earlier|old|existing|later|next|planned?|if|may|might|exchange[ds]? (?:for|from)|upsi[sz]\w+|instead|attempt\w*|first|initial(?:ly)?|unopened|unused|was too|too (?:big|large|small)|over (?:a|the)|normal|limit|target of|call|at least|more than|over|under|less than|up to|about|approximately|per|daily|a day|each|given|infus\w+|after \d|transfus\w+|resuscitat\w+|lost|losing)\b|[<>≤≥~]/i;

/** One figure of a text and where the record says otherwise. */
interface Differing {
  readonly what: Param;
  readonly value: string;
  readonly other: string;
  readonly place: string;
}

/** Figures of the outcome, the findings and the conclusion against the fields that hold the same. */
export function checkFigures(record: CaseRecord): Finding[] {
  const findings = (record.findings ?? []).map(({ text }, i) => ({ path: `findings[${i}].text`, text }));
  const told = [...toldAfter(record).filter(({ path }) => path !== 'outcome.disposition'), ...findings];
  return told.flatMap(one => {
    const found = clausesOf(one).flatMap(clause => [
      ...sizes(record, clause),
      ...lengths(record, one, clause),
      ...volumes(record, clause),
      ...counts(record, clause),
      ...gradients(record, clause),
    ]);
    return found.slice(0, 1).map(params => finding('clinical.measurement-differs', one.path, { ...params }));
  });
}

const clausesOf = ({ text }: Told) => text.split(/[.;]\s+|;/).filter(clause => !aside.test(clause));

/** All that is written of a device, as one text. */
function writtenOf(value: unknown): string {
  if (typeof value === 'string') return value;
  if (typeof value !== 'object' || value === null) return '';
  return Object.values(value).map(writtenOf).join(' ; ');
}

const scales: readonly { readonly unit: string; readonly words: RegExp }[] = [
  { unit: 'Fr', words: /(\d+(?:\.\d+)?)[- ]?(?:Fr|F|French)\b/g },
  { unit: 'G', words: /\b(\d{1,2})[- ]?(?:G|gauge)\b/g },
  {
    unit: 'µm',
    words: /\b(\d{2,4}(?: ?[-–] ?\d{2,4})?) ?(?:µm|μm|um|microns?|micrometres?|micrometers?)\b/g,
  },
];

/** French, gauge and particle sizes that no device has. */
function sizes(record: CaseRecord, clause: string): Differing[] {
  return scales.flatMap(({ unit, words: pattern }) => {
    const told = [...clause.matchAll(pattern)];
    if (told.length === 0) return [];
    const there = Object.values(record.devices ?? {}).flatMap(device => [
      ...writtenOf(device).matchAll(pattern),
    ]);
    const ofGuns = Object.values(record.devices ?? {})
      .filter(({ kind }) => /\b(?:biopsy|gun|core)\b/i.test(kind))
      .flatMap(device => [...writtenOf(device).matchAll(pattern)]);
    return told.flatMap(match => {
      const [whole, value = ''] = match;
      const cores = /^\s*(?:cores?|biops\w+)\b/i.test(clause.slice(match.index + whole.length));
      const known = new Set((cores && ofGuns.length > 0 ? ofGuns : there).map(([, one = '']) => plain(one)));
      return known.size === 0 || known.has(plain(value))
        ? []
        : [
            {
              what: clause,
              value: `${value} ${unit}`,
              other: [...known].map(one => `${one} ${unit}`).join(', '),
              place: 'devices',
            },
          ];
    });
  });
}

const plain = (value: string) => value.replace(/\s/g, '').replace('–', '-').replace(/\.0$/, '');

const lesion =
  'tumou?rs?|nodules?|lesions?|mass|masses|aneurysms?|abscess|collections?|fibroids?|cysts?|metastas[ie]s|stenos[ie]s|strictures?|hepatoma|carcinoma|renal mass';
const sized = new RegExp(
  `\\b(\\d+(?:\\.\\d+)?) ?(mm|cm)\\b[- ]?(?:[\\w-]+ ){0,3}?(?:${lesion})\\b|\\b(?:${lesion})(?: (?:of|measuring|was|is))* (\\d+(?:\\.\\d+)?) ?(mm|cm)\\b|` +
    `\\b(?:${lesion})\\b[^\\d;]{1,60}?\\b(\\d+(?:\\.\\d+)?) ?(mm|cm) long\\b`,
  'gi',
);

/** The size of what was treated, where its length or diameter is recorded. */
function lengths(record: CaseRecord, { path }: Told, clause: string): Differing[] {
  const targets = Object.entries(record.targets ?? {});
  const about = record.findings?.[Number(/^findings\[(\d+)\]/.exec(path)?.[1] ?? Number.NaN)]?.about;
  const own = about === undefined ? targets : targets.filter(([key]) => key === about);
  const [first] = own;
  if (!first?.[1].length || own.length > 1) return [];
  const told = [...clause.matchAll(sized)].map(([, ...groups]) => {
    const [number = '', unit = ''] = groups.filter(group => group !== undefined);
    return { written: `${number} ${unit}`, value: numberOf(number) * (/cm/i.test(unit) ? 10 : 1) };
  });
  if (told.length === 0) return [];
  const [key, target] = first;
  const known = [target.length, target.diameter, target.lumenBefore, target.lumenAfter].flatMap(one => {
    const value = one && convert(one, 'mm');
    return value ? [value.toNumber()] : [];
  });
  const elsewhere = `${record.indication.text} ${record.before?.imaging ?? ''} ${target.what.text} ${target.note ?? ''}`;
  // Where one of several figures is that of the target, the others are of something beside it.
  const fits = told.some(
    ({ written, value }) =>
      elsewhere.includes(written) || known.some(n => Math.abs(n - value) <= Math.max(1, n * 0.1)),
  );
  return fits
    ? []
    : told.map(({ written }) => ({
        what: clause,
        value: written,
        other: `${known[0]} mm`,
        place: `targets.${key}.length`,
      }));
}

const millilitres = (one: Quantity | undefined): number[] => {
  const value = one && convert(one, 'mL');
  return value ? [value.toNumber()] : [];
};
const amount = '(\\d+(?:[.,]\\d+)?) ?(mL|ml|litres?|liters?|L|cc)\\b';
const fluids: readonly {
  readonly does: readonly string[];
  readonly agent?: RegExp;
  readonly words: RegExp;
}[] = [
  {
    does: ['aspirate', 'sample'],
    words: new RegExp(
      `\\b${amount}(?: of)?(?: \\w+(?:-\\w+)?){0,3}? (?:drained|aspirated|removed|evacuated|taken off|tapped|out|bile|pus|fluid|ascites|effusion|blood|urine|lymph|chyle)\\b|\\b(?:drained|aspirated|evacuated|tapped) ${amount}`,
      'gi',
    ),
  },
  {
    does: ['inject'],
    agent: /cement|methacrylate|PMMA/i,
    words: new RegExp(`\\b${amount}(?: of)?(?: \\w+){0,2}? (?:cement|PMMA|methacrylate)\\b`, 'gi'),
  },
  {
    does: ['inject'],
    agent: /contrast|io\w+ol|iopamidol|gado\w+|dye|carbon dioxide/i,
    words: new RegExp(
      `\\b${amount}(?: of)?(?: \\w+){0,2}? (?:contrast|dye|iohexol|iopamidol|iodixanol|iomeprol|iopromide)\\b`,
      'gi',
    ),
  },
];

/** What some of the steps come to together: what was put in and drawn back is often left out of a total. */
const sumsOf = (steps: readonly number[]): readonly number[] =>
  steps
    .slice(0, 10)
    .reduce<number[]>((sums, step) => sums.concat(sums.map(sum => sum + step)), [0])
    .slice(1);

/** Volumes that came out or went in, as sums and single steps. */
function volumes(record: CaseRecord, clause: string): Differing[] {
  return fluids.flatMap(({ does, agent, words: pattern }) => {
    const told = [...clause.matchAll(pattern)];
    if (told.length === 0) return [];
    const steps = (record.events ?? []).filter(event => {
      const kind = record.devices?.[event.device ?? '']?.kind ?? '';
      return does.includes(event.do) && (agent === undefined || agent.test(`${event.agent ?? ''} ${kind}`));
    });
    const each = steps.flatMap(({ volume }) => millilitres(volume));
    const listed = [
      ...(agent === undefined
        ? entriesOf(record.specimens).flatMap(({ volume }) => millilitres(volume))
        : []),
      ...(agent !== undefined ? entriesOf(record.contrast).flatMap(({ volume }) => millilitres(volume)) : []),
    ];
    const loss = record.outcome?.bloodLoss;
    const known = [
      ...sumsOf(each),
      ...listed,
      listed.reduce((a, b) => a + b, 0),
      ...(typeof loss === 'object' ? millilitres(loss) : []),
    ];
    if (each.length === 0) return [];
    return told.flatMap(([, one, unit, two, unitTwo]) => {
      const value = numberOf(one ?? two ?? '') * (/^l/i.test(unit ?? unitTwo ?? '') ? 1000 : 1);
      if (known.some(n => Math.abs(n - value) <= Math.max(1, n * 0.1))) return [];
      const total = each.reduce((a, b) => a + b, 0);
      return [{ what: clause, value: `${value} mL`, other: `${total} mL`, place: 'events' }];
    });
  });
}

const counted = new RegExp(
  `\\b${count} (?:(?!and\\b|of\\b)[\\w.-]+ ){0,3}?(cores|samples|specimens|stents|coils|vials|syringes|drains|plugs|filters|catheters|tubes)\\b`,
  'gi',
);

/** How many were taken, or put in. */
function counts(record: CaseRecord, clause: string): Differing[] {
  return [...clause.matchAll(counted)].flatMap(([, written = '', noun = '']) => {
    const value = numberOf(written);
    const one = noun.toLowerCase().replace(/s$/, '');
    const numbers = /core|sample|specimen/.test(one)
      ? entriesOf(record.specimens).flatMap(({ what, count: n }) =>
          n !== undefined && (one !== 'core' || /core|biops/i.test(what.text)) ? [n] : [],
        )
      : Object.values(record.devices ?? {}).flatMap(({ kind, description, use, count: n }) =>
          (use ?? 'used') === 'used' &&
          (new RegExp(one, 'i').test(kind) ||
            (/vial|syringe/.test(one) && (n ?? 1) > 1) ||
            description?.includes(one))
            ? [n ?? 1]
            : [],
        );
    const total = numbers.reduce((a, b) => a + b, 0);
    const steps = /core|sample|specimen/.test(one)
      ? (record.events ?? []).filter(event => event.do === 'sample').length
      : total;
    if (numbers.length === 0 || [...numbers, total, steps].includes(value) || Number.isNaN(value)) return [];
    // 'Two vials in the one and one in the other': the last is counted by its number alone.
    const said = [...clause.matchAll(counted)].filter(
      ([, , other = '']) => other.replace(/s$/i, '').toLowerCase() === one,
    );
    const sum = said.reduce((all, [, number = '']) => all + numberOf(number), 0);
    if (value < total && (sum === total || inParts.test(clause))) return [];
    const place = /core|sample|specimen/.test(one) ? 'specimens' : 'devices';
    return [{ what: noun, value: written, other: String(total), place }];
  });
}

/** Gradients in mmHg, where the record holds the pressures of its targets. */
function gradients(record: CaseRecord, clause: string): Differing[] {
  if (!/\bgradient\b/i.test(clause)) return [];
  const known = [
    ...Object.values(record.targets ?? {}).flatMap(({ pressureBefore, pressureAfter }) => [
      pressureBefore,
      pressureAfter,
    ]),
    ...(record.events ?? []).map(({ pressure }) => pressure),
  ].flatMap(one => (one ? [Number(one.value)] : []));
  const measured = (record.outcome?.measurements ?? []).map(({ value }) => Number(value));
  if (known.length === 0 && measured.length === 0) return [];
  const told =
    /\bgradient\b(?:[^.;,\d]{0,40}\d+(?:\.\d+)?(?: ?mm ?Hg)?){1,3}/i
      .exec(clause)?.[0]
      .replace(/\bby \d+(?:\.\d+)?/g, '') ?? '';
  return [...told.matchAll(/\d+(?:\.\d+)?/g)].flatMap(([value]) =>
    [...known, ...measured].some(one => Math.abs(one - Number(value)) <= Math.max(2, one * 0.1))
      ? []
      : [
          {
            what: message('measure.gradientTold'),
            value: `${value} mmHg`,
            other: known.map(n => `${n} mmHg`).join(', '),
            place: 'targets',
          },
        ],
  );
}
