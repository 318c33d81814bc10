import { CasetallyError } from '../../findings/errors.js';
import { stops } from '../../findings/finding.js';
import { say } from '../../findings/say.js';
import type { DoseReading } from '../../intake/dose/files.js';
import { readDoseFiles } from '../../intake/dose/files.js';
import { MAX_FILES } from '../../intake/dose/limits.js';
import { doseLines } from '../../intake/dose/lines.js';
import type { DoseFigure } from '../../intake/dose/numbers.js';
import { inUnit } from '../../intake/dose/numbers.js';
import { type DoseReport, type PlaneTotals, systemText } from '../../intake/dose/report.js';
import { type CaseFigure, type FigureName, figureLabels } from '../../intake/dose/totals.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { unitOfCode } from '../../record/units.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { readBytes } from '../files.js';
import { counted, jsonText, type Output } from '../output.js';
import { filled, table } from '../terminal/fill.js';
import { findingsText } from '../terminal/findings.js';
import { openCase } from './open-case.js';
import { openSite } from './open-site.js';

interface DoseFlags {
  readonly case?: string;
  readonly contribution?: boolean;
  readonly site?: string;
  readonly json?: boolean;
}

/** Reads dose reports, prints what they say, and what differs from the record where one is named. */
export async function dose(paths: readonly string[], flags: DoseFlags, output: Output): Promise<ExitCode> {
  if (paths.length > MAX_FILES)
    throw new CasetallyError('usage', `name ${MAX_FILES} files at most: the dose reports of one case.`);
  const opened = await recordOf(flags, output);
  if (opened === undefined) return exitCodes.usage;
  const given = [];
  for (const file of paths) given.push({ file, bytes: await readBytes(file) });
  const reading = await readDoseFiles(given, { ...opened, readAt: new Date().toISOString() });
  if (flags.contribution) output.out(jsonText(reading.contribution));
  else if (flags.json) output.out(jsonText(rowsOf(reading)));
  else print(reading, output);
  if (flags.contribution) sayFindings(reading, output);
  if (reading.files.some(({ report }) => !report)) return exitCodes.usage;
  return exitFor([
    ...reading.files.flatMap(one => one.findings),
    ...reading.summary.findings,
    ...reading.compared,
  ]);
}

/** The record of `--case`; undefined, with what is wrong said, where it cannot be read. */
async function recordOf(flags: DoseFlags, output: Output): Promise<{ record?: CaseRecord } | undefined> {
  if (flags.case === undefined) return {};
  const site = await openSite(flags.site, output);
  if (!site) return undefined;
  const { record, parsed, file } = await openCase(flags.case, site, output);
  if (record) return { record };
  const verdict = 'nothing was compared: the record must be readable as a whole first';
  output.err(findingsText(file, parsed.findings.filter(stops), output, { verdict }));
  return undefined;
}

function rowsOf({ files, summary, compared, contribution }: DoseReading): object {
  return {
    files,
    counted: summary.counted.map(({ file }) => file),
    figures: summary.figures,
    findings: [...summary.findings, ...compared],
    lines: doseLines(contribution),
  };
}

function print(reading: DoseReading, output: Output): void {
  for (const { file, report } of reading.files) if (report) output.out(reportText(file, report, output));
  const { figures, counted: added } = reading.summary;
  const names = Object.keys(figures) as FigureName[];
  if (names.length > 0) {
    const rows = names.map(name => {
      const figure = figures[name];
      return [
        say(figureLabels[name], output.language),
        figure ? `${bothWays(figure)}${howMade(figure)}` : '',
      ];
    });
    const title = added.length > 1 ? `All ${added.length} reports` : 'In total';
    output.out(table([[title, ''], ...rows], output.columns));
  }
  const lines = doseLines(reading.contribution);
  if (lines.length > 0) output.out(`\nFor the case file:\n\n${lines.map(line => `${line}\n`).join('')}`);
  sayFindings(reading, output);
}

function sayFindings({ files, summary, compared }: DoseReading, output: Output): void {
  for (const { file, findings } of files) output.err(findingsText(file, findings, output));
  output.err(findingsText('The reports together', summary.findings, output));
  output.err(findingsText('Compared with the record', compared, output));
}

/** What the reports do not state themselves is said to be worked out. */
function howMade({ fromEvents, meanOf }: CaseFigure): string {
  if (fromEvents !== undefined) return `, sum of ${counted(fromEvents, 'event', 'events')}`;
  return meanOf === undefined ? '' : `, mean of ${meanOf} scans`;
}

/** Whom it is about, which study and system, events, and the totals of each plane. */
function reportText(file: string, report: DoseReport, output: Output): string {
  const { patient, kind, xrayEvents, ctEvents, planes, ct } = report;
  const events = kind === 'ct' ? ctEvents.length : xrayEvents.length;
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Patient', [patient.name, patient.id, patient.birthDate, patient.sex].filter(part => part).join(', ')],
    ['Study', report.study],
    ['Accession', report.accession],
    ['System', systemText(report)],
    ['Made', report.at],
    ['Scope', report.scope?.meaning],
    [
      'Events',
      `${counted(events, 'irradiation event', 'irradiation events')}, ${kind === 'ct' ? 'CT' : 'projection X-ray'}`,
    ],
    ...planes.flatMap(plane => planeRows(plane)),
    ...(ct?.doseLengthProduct ? ([['DLP total', bothWays(ct.doseLengthProduct)]] as const) : []),
    ...ctEvents.flatMap(scan =>
      scan.doseIndex || scan.doseLengthProduct ? ([[scan.protocol ?? 'Scan', scanText(scan)]] as const) : [],
    ),
  ];
  const shown = rows.flatMap(([name, value]) =>
    value ? filled(value, output.columns, `  ${name.padEnd(24)} `) : [],
  );
  return `${filled(file, output.columns)}${shown.join('')}\n`;
}

function planeRows({ plane, ...totals }: PlaneTotals): (readonly [string, string])[] {
  const which = plane === 'single' ? '' : ` ${plane}`;
  return planeNames.flatMap(([key, name]) => {
    const figure = totals[key];
    return figure ? [[`${name}${which}`, bothWays(figure)] as const] : [];
  });
}

const planeNames = [
  ['doseAreaProduct', 'DAP'],
  ['fluoroDoseAreaProduct', 'DAP fluoroscopy'],
  ['acquisitionDoseAreaProduct', 'DAP acquisition'],
  ['doseRp', 'Dose (RP)'],
  ['fluoroDoseRp', 'Dose (RP) fluoroscopy'],
  ['acquisitionDoseRp', 'Dose (RP) acquisition'],
  ['fluoroTime', 'Fluoroscopy time'],
  ['acquisitionTime', 'Acquisition time'],
  ['frames', 'Frames'],
] as const satisfies readonly (readonly [Exclude<keyof PlaneTotals, 'plane'>, string])[];

function scanText({ doseIndex, doseLengthProduct, phantom, target }: DoseReport['ctEvents'][number]): string {
  return [
    target?.meaning,
    doseIndex && `CTDIvol ${printed(doseIndex)}`,
    phantom?.meaning,
    doseLengthProduct && `DLP ${printed(doseLengthProduct)}`,
  ]
    .filter(part => part)
    .join(', ');
}

const printed = ({ value, unit }: DoseFigure) => `${value} ${unitOfCode(unit)?.display ?? unit}`.trim();

/** Units of consoles, and those of the standard. */
const CONSOLE: Readonly<Record<string, readonly [string, string]>> = {
  kermaArea: ['Gy.cm2', 'Gy.m2'],
  kerma: ['mGy', 'Gy'],
};

/** `45.2310 Gy·cm² (0.00452310 Gy·m²)`, `154.5 s (2:35 min)`. */
function bothWays(figure: DoseFigure): string {
  const dimension = unitOfCode(figure.unit)?.dimension ?? '';
  const seconds = dimension === 'duration' ? inUnit(figure, 's') : undefined;
  if (seconds !== undefined) {
    const whole = Math.round(Number(seconds));
    return `${seconds} s (${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')} min)`;
  }
  const texts = (CONSOLE[dimension] ?? [figure.unit]).flatMap(unit => {
    const value = inUnit(figure, unit);
    return value === undefined ? [] : [printed({ value, unit })];
  });
  return texts.length > 1 ? `${texts[0]} (${texts.slice(1).join(', ')})` : (texts[0] ?? printed(figure));
}
