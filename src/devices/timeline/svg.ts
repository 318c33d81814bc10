import { ticks } from './clock.js';
import { element, escapeXml, lines, number, picture, shortened, text } from './draw.js';
import type { TimelineBar, TimelineMark } from './marks.js';
import { insideLines } from './text.js';
import type { Timeline, TimelineRow } from './timeline.js';
import type { TimelineWords } from './words.js';

const WIDTH = 1000;
/** Names stand left of this, times between the two, the end of each row right of the second. */
const LEFT = 270;
const RIGHT = 760;
const ROW = 30;
const PART = 22;
const BAR = 12;
const DARK = '#1a1a1a';
const PALE = '#e4e4e4';
const LINE = '#6b6b6b';

/** How the picture is made. */
export interface SvgOptions {
  /** In front of ids, so that several pictures can stand in one page. */
  readonly idPrefix?: string;
}

interface Sheet {
  readonly timeline: Timeline;
  readonly id: string;
  readonly x: (epoch: number) => number;
  readonly middle: ReadonlyMap<string, number>;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The timeline as a picture: devices down, time across; what runs off the right edge is still inside. Told apart by
 * pattern, shape and words, never by colour alone. No scripts, styles or outside references; same input, same bytes.
 */
export function timelineSvg(timeline: Timeline, options: SvgOptions = {}): string {
  const id = (options.idPrefix ?? 'timeline').replace(/[^A-Za-z0-9_-]/g, '-');
  const banner = insideLines(timeline).flatMap(line => lines(line, 118));
  const { clock, from, to } = timeline;
  const overnight = clock.date(from) !== clock.date(to);
  const top = 34 + banner.length * 17 + (overnight ? 38 : 28) + (clock.changed ? 12 : 0);
  const middle = new Map<string, number>();
  let y = top;
  for (const row of timeline.rows) {
    const height = row.part === undefined ? ROW : PART;
    middle.set(row.key, y + height / 2);
    y += height;
  }
  const bottom = y + 4;
  const unused =
    timeline.unused.length > 0
      ? lines(timeline.words.say('unused', { list: timeline.unused.join('; ') }), 150)
      : [];
  const height = bottom + 62 + unused.length * 14;
  const x = (epoch: number) => LEFT + 10 + ((epoch - from) / (to - from)) * (RIGHT - LEFT - 30);
  const sheet: Sheet = { timeline, id, x, middle, top, bottom };
  const body = [
    text(12, 22, timeline.title, { size: 15, weight: 'bold' }),
    ...banner.map((line, i) => text(12, 42 + i * 17, line, { size: 13, weight: 'bold' })),
    ...axis(sheet),
    ...timeline.rows.flatMap(row => exchanges(sheet, row)),
    ...timeline.rows.flatMap(row => drawRow(sheet, row)),
    ...legend(id, bottom + 24, timeline.words),
    ...unused.map((line, i) => text(12, bottom + 62 + i * 14, line, { size: 11 })),
  ];
  const { title } = timeline;
  const description = insideLines(timeline).join(' ');
  return picture({ id, width: WIDTH, height, title, description }, body, [patterns(id)]);
}

/** Stripes for an inflation, a cross-weave for what is inside against intention. */
function patterns(id: string): string {
  const hatch = (name: string, size: number, d: string) =>
    element('pattern', { id: `${id}-${name}`, width: size, height: size, patternUnits: 'userSpaceOnUse' }, [
      element('rect', { width: size, height: size, fill: '#ffffff' }),
      element('path', { d, stroke: DARK, 'stroke-width': 1.4, fill: 'none' }),
    ]);
  return element('defs', {}, [
    hatch('inflated', 6, 'M0 6L6 0M-1.5 1.5L1.5 -1.5M4.5 7.5L7.5 4.5'),
    hatch('retained', 6, 'M0 0L6 6M0 6L6 0'),
  ]);
}

function axis({ timeline, x, top, bottom }: Sheet): string[] {
  const { clock, from, to } = timeline;
  const dateOf = timeline.words.date;
  const marks = ticks(from, to, 8);
  const shown: string[] = [];
  let day = clock.date(from);
  const spans = clock.date(from) !== clock.date(to);
  if (spans) shown.push(text(LEFT - 4, top - 22, dateOf(day), { size: 10, anchor: 'end' }));
  let offset = clock.changed ? '' : clock.offset(from);
  for (const at of marks) {
    const px = x(at);
    shown.push(
      element('path', {
        d: `M${number(px)} ${top - 6}V${number(bottom)}`,
        stroke: '#c8c8c8',
        'stroke-width': 0.7,
      }),
    );
    if (px < RIGHT - 30) shown.push(text(px, top - 10, clock.time(at), { size: 10, anchor: 'middle' }));
    if (clock.date(at) !== day) {
      day = clock.date(at);
      shown.push(text(px, top - 22, dateOf(day), { size: 10, anchor: 'middle' }));
    }
    // Where the clocks change, the same time comes twice.
    if (clock.offset(at) !== offset) {
      offset = clock.offset(at);
      shown.push(text(px, top - (spans ? 34 : 22), offset, { size: 10, anchor: 'middle' }));
    }
  }
  shown.push(
    element('path', { d: `M${RIGHT} ${top - 6}V${number(bottom)}`, stroke: DARK, 'stroke-width': 1.5 }),
  );
  shown.push(
    text(RIGHT, top - 10, timeline.words.say('end'), { size: 10, anchor: 'middle', weight: 'bold' }),
  );
  return shown;
}

function drawRow(sheet: Sheet, row: TimelineRow): string[] {
  const y = sheet.middle.get(row.key) ?? 0;
  const held = row.end !== 'out';
  const weight = held ? 'bold' : 'normal';
  const [first = '', rest = ''] = row.name.split(/, (.*)/s);
  const names =
    row.part === undefined
      ? [
          text(12, rest === '' ? y + 4 : y - 2, shortened(first, 36), { size: 12, weight: 'bold' }),
          ...(rest === '' ? [] : [text(12, y + 10, shortened(rest, 48), { size: 10 })]),
        ]
      : [text(26, y + 4, shortened(`└ ${row.name}`, 40), { size: 11 })];
  const words = shortened(row.words, 39);
  return [
    element('path', {
      d: `M12 ${number(y + (row.part === undefined ? ROW : PART) / 2)}H${WIDTH - 12}`,
      stroke: '#ececec',
      'stroke-width': 0.8,
    }),
    ...names,
    ...row.bars.flatMap(bar => drawBar(sheet, row, bar, y)),
    ...row.marks.flatMap(mark => drawMark(sheet, mark, y)),
    text(RIGHT + 20, y + 4, words, { size: 11, weight }),
  ];
}

function drawBar({ x, timeline, id }: Sheet, row: TimelineRow, bar: TimelineBar, y: number): string[] {
  const before = bar.from === undefined;
  const start = before ? LEFT : x(bar.from ?? timeline.from);
  const open = bar.to === undefined;
  const end = open ? RIGHT + 2 : Math.max(x(bar.to ?? timeline.to), start + 4);
  const top = y - BAR / 2;
  const low = y + BAR / 2;
  const tip = open ? `L${number(end + 10)} ${number(y)}` : '';
  const tail = before ? `L${number(start - 8)} ${number(y)}` : '';
  const d = `M${number(start)} ${number(top)}H${number(end)}${tip}L${number(end)} ${number(low)}H${number(start)}${tail}Z`;
  const unsure = open && row.end === 'unaccounted';
  const fill = !open ? PALE : unsure ? '#ffffff' : row.end === 'retained' ? `url(#${id}-retained)` : DARK;
  const shape = element('path', {
    d,
    fill,
    stroke: open ? DARK : LINE,
    'stroke-width': open ? 1.8 : 1,
    ...(unsure && { 'stroke-dasharray': '5 3' }),
  });
  const sign = unsure
    ? [text((start + end) / 2, y + 4, '?', { size: 12, weight: 'bold', anchor: 'middle' })]
    : [];
  const many = bar.count > 1 ? [text(start - 9, y + 4, `${bar.count} ×`, { size: 10, anchor: 'end' })] : [];
  return [shape, ...sign, ...many];
}

function drawMark({ x, id }: Sheet, mark: TimelineMark, y: number): string[] {
  const px = x(mark.from);
  const about = element('title', {}, [escapeXml(mark.words)]);
  const line = { fill: '#ffffff', stroke: DARK, 'stroke-width': 1.4 };
  if (mark.kind === 'inflation') {
    const end = Math.max(mark.to === undefined ? px : x(mark.to), px + 4);
    const box = {
      x: px,
      y: y - BAR / 2 - 3,
      width: end - px,
      height: BAR + 6,
      ...line,
      fill: `url(#${id}-inflated)`,
    };
    return [element('rect', box, [about])];
  }
  if (mark.kind === 'placed')
    return [element('path', { d: `M${number(px)} ${number(y - 7)}l6 7l-6 7l-6 -7z`, ...line }, [about])];
  if (mark.kind === 'broken' || mark.kind === 'lost') {
    const d = `M${number(px - 5)} ${number(y - 8)}l10 16m0 -16l-10 16`;
    return [
      element('path', { d, stroke: '#ffffff', 'stroke-width': 5, fill: 'none' }),
      element('path', { d, stroke: DARK, 'stroke-width': 2.2, fill: 'none' }, [about]),
    ];
  }
  if (mark.kind === 'part out')
    return [element('path', { d: `M${number(px - 4)} ${number(y - 1)}l4 -8l4 8z`, ...line }, [about])];
  return [];
}

/** A line from what came out to what went in. */
function exchanges({ x, middle }: Sheet, row: TimelineRow): string[] {
  return row.marks.flatMap(mark => {
    const from = middle.get(row.key);
    const to = mark.partner === undefined ? undefined : middle.get(mark.partner);
    if (mark.kind !== 'exchange' || from === undefined || to === undefined) return [];
    const px = number(x(mark.from));
    const d = `M${px} ${number(from)}V${number(to)}`;
    return [
      element('path', { d, stroke: DARK, 'stroke-width': 1.6, 'stroke-dasharray': '2 3', fill: 'none' }, [
        element('title', {}, [escapeXml(mark.words)]),
      ]),
    ];
  });
}

function legend(id: string, y: number, words: TimelineWords): string[] {
  const line = { stroke: DARK, 'stroke-width': 1.4, fill: '#ffffff' };
  const mid = y - 4;
  const entries: [string, string, number][] = [
    [
      element('path', { d: `M0 ${mid - 6}H26L36 ${mid}L26 ${mid + 6}H0Z`, fill: DARK }),
      words.say('keyInside'),
      44,
    ],
    [
      element('path', { d: `M0 ${mid - 6}H26V${mid + 6}H0Z`, fill: PALE, stroke: LINE }),
      words.say('keyOut'),
      34,
    ],
    [
      element('path', {
        d: `M0 ${mid - 6}H26L36 ${mid}L26 ${mid + 6}H0Z`,
        ...line,
        'stroke-dasharray': '5 3',
      }),
      words.say('keyUnaccounted'),
      44,
    ],
    [
      element('path', {
        d: `M0 ${mid - 6}H26L36 ${mid}L26 ${mid + 6}H0Z`,
        ...line,
        fill: `url(#${id}-retained)`,
      }),
      words.say('keyAgainst'),
      44,
    ],
  ];
  const signs: [string, string, number][] = [
    [
      element('rect', { x: 0, y: mid + 9, width: 14, height: 16, ...line, fill: `url(#${id}-inflated)` }),
      words.say('keyInflated'),
      22,
    ],
    [element('path', { d: `M6 ${mid + 10}l6 7l-6 7l-6 -7z`, ...line }), words.say('keyPlaced'), 20],
    [element('path', { d: `M2 ${mid + 21}l4 -8l4 8z`, ...line }), words.say('keyPart'), 20],
    [
      element('path', { d: `M1 ${mid + 9}l10 16m0 -16l-10 16`, stroke: DARK, 'stroke-width': 2.2 }),
      words.say('keyBroken'),
      20,
    ],
    [
      element('path', {
        d: `M6 ${mid + 8}v18`,
        stroke: DARK,
        'stroke-width': 1.6,
        'stroke-dasharray': '2 3',
      }),
      words.say('keyExchanged'),
      20,
    ],
  ];
  const place = (row: typeof entries, baseline: number, step: number) =>
    row.map(([shape, meaning, gap], i) =>
      element('g', { transform: `translate(${12 + i * step} 0)` }, [
        shape,
        text(gap, baseline, meaning, { size: 11 }),
      ]),
    );
  return [...place(entries, y, 235), ...place(signs, y + 17, 188)];
}
