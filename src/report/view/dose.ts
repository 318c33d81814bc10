import type { Printer } from '../print/printer.js';
import { absent, detail, fact, facts, none, type Stated, said, section, table } from './blocks.js';
import type { Block, Fact, Section } from './model.js';

/** One line an injection: volume, agent, route. */
export function contrast(p: Printer): Fact {
  return fact(p, 'contrast', contrastStated(p));
}

function contrastStated(p: Printer): Stated {
  const list = p.record.contrast;
  if (list === undefined) return absent(p, true);
  if (list === 'none') return none(p, 'contrast.none');
  return said(
    ...list.map(entry => {
      const reaction =
        entry.reaction === undefined ? [] : [p.say('contrast.reaction', { value: entry.reaction })];
      return [
        `${p.quantity(entry.volume)} ${agent(p, entry)}`,
        p.say(`route.${entry.route}`),
        ...reaction,
      ].join('; ');
    }),
  );
}

type Given = Exclude<NonNullable<Printer['record']['contrast']>, 'none'>[number];

function agent(p: Printer, entry: Given): string {
  return entry.concentration
    ? p.say('contrast.concentration', {
        agent: p.drug(entry.agent.text),
        concentration: p.quantity(entry.concentration),
      })
    : p.drug(entry.agent.text);
}

function contrastBlock(p: Printer): Block {
  const list = p.record.contrast;
  if (list === undefined || list === 'none') return facts(p, undefined, [contrast(p)]);
  return table(
    p,
    'label.contrast',
    ['agent', 'volume', 'route', 'time', 'reaction'],
    list.map((entry, index) => ({
      key: `contrast[${index}]`,
      cells: [
        agent(p, entry),
        p.quantity(entry.volume),
        p.say(`route.${entry.route}`),
        entry.at && p.moment(entry.at),
        entry.reaction,
      ],
      alert: false,
    })),
  );
}

/** The figures in one line each, for the short reports. */
export function radiation(p: Printer): Fact {
  const entry = p.record.radiation;
  if (entry === undefined) return fact(p, 'radiation', absent(p, true));
  if (entry === 'none') return fact(p, 'radiation', none(p, 'radiation.none'));
  const lines = radiationFacts(p).map(({ label, lines: values }) =>
    p.say('field', { label, value: values.join(' ') }),
  );
  return fact(p, 'radiation', lines.length > 0 ? said(...lines) : absent(p, true));
}

function radiationFacts(p: Printer): Fact[] {
  const entry = p.record.radiation;
  if (entry === undefined || entry === 'none') return [];
  return [
    ...detail(p, 'kermaAreaProduct', entry.kermaAreaProduct && p.quantity(entry.kermaAreaProduct)),
    ...detail(p, 'airKerma', entry.airKerma && p.quantity(entry.airKerma)),
    ...detail(p, 'fluoroscopyTime', entry.fluoroscopyTime && p.quantity(entry.fluoroscopyTime)),
    ...detail(p, 'frames', entry.frames === undefined ? undefined : String(entry.frames)),
    ...detail(p, 'peakSkinDose', entry.peakSkinDose && p.quantity(entry.peakSkinDose)),
    ...detail(p, 'doseLengthProduct', entry.doseLengthProduct && p.quantity(entry.doseLengthProduct)),
    ...detail(p, 'ctDoseIndex', entry.ctDoseIndex && p.quantity(entry.ctDoseIndex)),
    ...detail(p, 'system', entry.system),
    ...detail(p, 'note', entry.note),
  ];
}

export function doseSection(p: Printer): Section {
  const rows = radiationFacts(p);
  return section(p, 'dose', [
    contrastBlock(p),
    facts(p, rows.length > 0 ? 'label.radiation' : undefined, rows.length > 0 ? rows : [radiation(p)]),
    ...earlierDose(p),
  ]);
}

function earlierDose(p: Printer): Block[] {
  const entry = p.record.radiation;
  const list = entry === undefined || entry === 'none' ? [] : (entry.earlier ?? []);
  if (list.length === 0) return [];
  return [
    table(
      p,
      'table.earlierDose',
      ['when', 'case', 'airKerma', 'kermaAreaProduct'],
      list.map((row, index) => ({
        key: `radiation.earlier[${index}]`,
        cells: [
          p.date(row.date),
          row.case?.value,
          row.airKerma && p.quantity(row.airKerma),
          row.kermaAreaProduct && p.quantity(row.kermaAreaProduct),
        ],
      })),
    ),
  ];
}

/** One line a sample. */
export function specimens(p: Printer): Fact {
  const list = p.record.specimens;
  if (list === undefined) return fact(p, 'specimens', absent(p, true));
  if (list === 'none') return fact(p, 'specimens', none(p, 'specimens.none'));
  return fact(
    p,
    'specimens',
    said(
      ...list.map(({ what, sentFor }) =>
        sentFor === undefined
          ? p.place(what.text)
          : p.say('field', { label: p.place(what.text), value: p.value(sentFor) }),
      ),
    ),
  );
}

export function specimensSection(p: Printer): Section {
  const list = p.record.specimens;
  if (list === undefined || list === 'none')
    return section(p, 'specimens', [facts(p, undefined, [specimens(p)])]);
  return section(p, 'specimens', [
    table(
      p,
      'section.specimens',
      ['specimen', 'appearance', 'sentFor', 'container', 'time'],
      list.map((entry, index) => ({
        key: `specimens[${index}]`,
        cells: [
          [p.place(entry.what.text), entry.from && p.say('specimen.from', { value: p.target(entry.from) })],
          [
            entry.count === undefined ? undefined : p.plural('specimen.count', String(entry.count)),
            entry.volume && p.quantity(entry.volume),
            entry.appearance,
          ],
          entry.sentFor && p.value(entry.sentFor),
          entry.container === undefined && !entry.identifier
            ? null
            : [entry.container, entry.identifier?.value],
          entry.at && p.moment(entry.at),
        ],
      })),
      true,
    ),
  ]);
}
