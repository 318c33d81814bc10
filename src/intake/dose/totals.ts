import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { unitOfCode } from '../../record/units.js';
import { fluoroscopyCodes } from './concepts.js';
import { agree, type DoseFigure, summed } from './numbers.js';
import type { CtEvent, DoseReport, Plane, XrayEvent } from './report.js';

/** Figures of a case that a report gives, under their names in the record. */
export type FigureName =
  | 'kermaAreaProduct'
  | 'airKerma'
  | 'fluoroscopyTime'
  | 'frames'
  | 'doseLengthProduct'
  | 'ctDoseIndex';

/** A figure of a case in the unit of the record, exact. */
export interface CaseFigure extends DoseFigure {
  /** How many events it was added up from, where the report states no total. */
  readonly fromEvents?: number;
  /** Of how many scans it is the mean. */
  readonly meanOf?: number;
}

export type CaseFigures = Readonly<Partial<Record<FigureName, CaseFigure>>>;

/** Units that figures are added in. */
export const figureUnits: Readonly<Record<FigureName, string>> = {
  kermaAreaProduct: 'Gy.cm2',
  airKerma: 'mGy',
  fluoroscopyTime: 's',
  frames: '1',
  doseLengthProduct: 'mGy.cm',
  ctDoseIndex: 'mGy',
};

export const figureLabels: Readonly<Record<FigureName, Message>> = {
  kermaAreaProduct: message('label.kermaAreaProduct'),
  airKerma: message('label.airKerma'),
  fluoroscopyTime: message('label.fluoroscopyTime'),
  frames: message('label.frames'),
  doseLengthProduct: message('label.doseLengthProduct'),
  ctDoseIndex: message('label.ctDoseIndex'),
};

/** A figure as a quantity of a message. */
export const asQuantity = ({ value, unit }: DoseFigure) => ({
  quantity: { value, unit: unitOfCode(unit)?.display ?? unit, code: unit },
});

/** What of a plane's totals and of its events makes which figure. */
const xrayFigures = [
  { name: 'kermaAreaProduct', total: 'doseAreaProduct', event: 'doseAreaProduct', fluoroscopy: false },
  { name: 'airKerma', total: 'doseRp', event: 'doseRp', fluoroscopy: false },
  { name: 'fluoroscopyTime', total: 'fluoroTime', event: 'duration', fluoroscopy: true },
  { name: 'frames', total: 'frames', event: undefined, fluoroscopy: false },
] as const;

const isFluoroscopy = ({ type }: XrayEvent) => type !== undefined && fluoroscopyCodes.has(type.code);

/** Planes that have totals or events, and the events that belong to each. */
export function planesWithEvents(report: DoseReport): { plane: Plane; events: XrayEvent[] }[] {
  const stated = report.planes.map(({ plane }) => plane);
  // Events without a plane belong to the one plane there is.
  const only = stated.length === 1 ? stated[0] : stated.length === 0 ? 'single' : undefined;
  const planeOf = (event: XrayEvent) => event.plane ?? only;
  const planes = new Set([...stated, ...report.xrayEvents.flatMap(event => planeOf(event) ?? [])]);
  return [...planes].map(plane => ({
    plane,
    events: report.xrayEvents.filter(event => planeOf(event) === plane),
  }));
}

/** A value of every event, added up; undefined where one event lacks it or there is none. */
function sumOf(parts: readonly (DoseFigure | undefined)[], unit: string): DoseFigure | undefined {
  const known = parts.filter(part => part !== undefined);
  return known.length === parts.length ? summed(known, unit) : undefined;
}

/** Figures of one report. Planes are added; where a plane has no total its events stand in, if every one has the value. */
export function figuresOf(report: DoseReport): CaseFigures {
  return report.kind === 'ct' ? ctFigures(report) : xrayFiguresOf(report);
}

function xrayFiguresOf(report: DoseReport): CaseFigures {
  const planes = planesWithEvents(report);
  const homeless = report.xrayEvents.length > planes.reduce((n, { events }) => n + events.length, 0);
  const found: Partial<Record<FigureName, CaseFigure>> = {};
  for (const { name, total, event, fluoroscopy } of xrayFigures) {
    const unit = figureUnits[name];
    let fromEvents = 0;
    const parts = planes.map(({ plane, events }) => {
      const stated = report.planes.find(one => one.plane === plane)?.[total];
      if (stated || event === undefined || homeless) return stated;
      const typed = !fluoroscopy || events.every(({ type }) => type !== undefined);
      const own = fluoroscopy ? events.filter(isFluoroscopy) : events;
      fromEvents += own.length;
      return typed
        ? sumOf(
            own.map(one => one[event]),
            unit,
          )
        : undefined;
    });
    const sum = parts.length > 0 ? sumOf(parts, unit) : undefined;
    if (sum) found[name] = { ...sum, ...(fromEvents > 0 && { fromEvents }) };
  }
  return found;
}

/** A localizer at a constant angle (CID 10013) has no CT dose by its template. */
const hasDose = ({ type }: CtEvent) => type?.code !== '113805';

function ctFigures({ ct, ctEvents }: DoseReport): CaseFigures {
  const scans = ctEvents.filter(hasDose);
  const stated = ct?.doseLengthProduct && summed([ct.doseLengthProduct], 'mGy.cm');
  const added = stated
    ? undefined
    : sumOf(
        scans.map(scan => scan.doseLengthProduct),
        'mGy.cm',
      );
  const total = stated ?? (added && { ...added, fromEvents: scans.length });
  const index = meanIndex(scans);
  return { ...(total && { doseLengthProduct: total }), ...(index && { ctDoseIndex: index }) };
}

/** CTDIvol of the one scan, or the mean of several by the same phantom, to two places. */
function meanIndex(scans: readonly CtEvent[]): CaseFigure | undefined {
  const sum = sumOf(
    scans.map(scan => scan.doseIndex),
    'mGy',
  );
  if (!sum || new Set(scans.map(scan => scan.phantom?.code)).size > 1) return undefined;
  if (scans.length === 1) return sum;
  return { value: new Decimal(sum.value).div(scans.length).toFixed(2), unit: 'mGy', meanOf: scans.length };
}

/** What is said of the totals of one report: what is missing, what was added up, what its parts do not bear out. */
export function totalsFindings(report: DoseReport): Finding[] {
  const figures = figuresOf(report);
  const names = report.kind === 'ct' ? (['doseLengthProduct'] as const) : xrayFigures.map(({ name }) => name);
  const stated = names.flatMap(name => {
    const what = figureLabels[name];
    const found = figures[name];
    // Many systems state no frames where none were stored.
    const severity = name === 'frames' ? 'information' : 'warning';
    if (!found) return [finding('dose-report.no-total', `radiation.${name}`, { what }, { severity })];
    if (found.fromEvents === undefined) return [];
    const n = `${found.fromEvents}`;
    return [finding('dose-report.summed', `radiation.${name}`, { what, n, sum: asQuantity(found) })];
  });
  const events = report.kind === 'ct' ? report.ctEvents.length : report.xrayEvents.length;
  return [
    ...stated,
    ...(report.kind === 'ct' ? ctDisagreements(report) : xrayDisagreements(report)),
    ...(events === 0 ? [finding('dose-report.no-events', '', {})] : []),
  ];
}

function xrayDisagreements(report: DoseReport): Finding[] {
  return planesWithEvents(report).flatMap(({ plane, events }) => {
    const totals = report.planes.find(one => one.plane === plane);
    if (!totals) return [];
    const { fluoroDoseAreaProduct, acquisitionDoseAreaProduct, fluoroDoseRp, acquisitionDoseRp } = totals;
    return (
      [
        [
          'kermaAreaProduct',
          totals.doseAreaProduct,
          'doseAreaProduct',
          [fluoroDoseAreaProduct, acquisitionDoseAreaProduct],
        ],
        ['airKerma', totals.doseRp, 'doseRp', [fluoroDoseRp, acquisitionDoseRp]],
      ] as const
    ).flatMap(([name, total, event, parts]) => {
      const own = apart(
        name,
        total,
        events.map(one => one[event]),
      );
      return own.length > 0 ? own : apart(name, total, parts);
    });
  });
}

function ctDisagreements({ ct, ctEvents }: DoseReport): Finding[] {
  const scans = ctEvents.filter(hasDose).map(scan => scan.doseLengthProduct);
  const counted = ct?.events?.value;
  return [
    ...apart('doseLengthProduct', ct?.doseLengthProduct, scans),
    ...(counted !== undefined && counted !== `${ctEvents.length}`
      ? [finding('dose-report.events-missing', '', { counted, found: `${ctEvents.length}` })]
      : []),
  ];
}

/** A total and parts that do not add up to it. */
function apart(
  name: FigureName,
  total: DoseFigure | undefined,
  parts: readonly (DoseFigure | undefined)[],
): Finding[] {
  const unit = figureUnits[name];
  const sum = sumOf(parts, unit);
  const stated = total && summed([total], unit);
  if (!sum || !stated) return [];
  const own = parts.flatMap(part => (part ? (summed([part], unit)?.value ?? []) : []));
  if (agree(stated.value, sum.value, own)) return [];
  return [
    finding('dose-report.sum-differs', `radiation.${name}`, {
      what: figureLabels[name],
      total: asQuantity(stated),
      sum: asQuantity(sum),
    }),
  ];
}
