import { type Finding, finding } from '../../findings/finding.js';
import { summed } from './numbers.js';
import { type DoseFile, type DoseReport, systemText } from './report.js';
import { laterOf, relation, samePerson } from './same.js';
import { type CaseFigures, type FigureName, figuresOf, figureUnits } from './totals.js';

/** What the reports of one case say together. */
export interface DoseSummary {
  /** Reports whose figures count, in the order they came; none where they do not belong together. */
  readonly counted: readonly DoseFile[];
  readonly figures: CaseFigures;
  readonly findings: readonly Finding[];
}

/**
 * Adds up the reports of one case. The same report twice counts once, and one that a later report of the same system
 * holds already is left out; those of other systems or with other events are added. Where that cannot be told, or the
 * reports are of several patients or cases, nothing is added.
 */
export function combineDose(files: readonly DoseFile[]): DoseSummary {
  const findings: Finding[] = [];
  let held = false;
  const holdBack = (one: Finding) => {
    held = true;
    findings.push(one);
  };
  const once: DoseFile[] = [];
  for (const one of files) {
    const same = once.find(
      ({ report }) => report.instance !== undefined && report.instance === one.report.instance,
    );
    const names = { file: one.file, other: same?.file ?? '' };
    if (!same) once.push(one);
    else if (JSON.stringify(same.report) === JSON.stringify(one.report))
      findings.push(finding('dose-report.same-twice', '', names));
    else holdBack(finding('dose-report.instance-clash', '', names));
  }
  const [first] = once;
  for (const { file, report } of once.slice(1)) {
    if (!first) break;
    const names = { file, other: first.file };
    if (!samePerson(first.report, report)) holdBack(finding('dose-report.two-patients', '', names));
    else if (!sameCase(first.report, report)) holdBack(finding('dose-report.two-cases', '', names));
  }
  const out = new Set<DoseFile>();
  once.forEach((a, i) => {
    for (const b of once.slice(i + 1)) {
      if (held || out.has(a) || out.has(b)) continue;
      const [early, late] = laterOf(a, b);
      const names = { file: early.file, other: late.file };
      const found = relation(early.report, late.report);
      if (found === 'held') {
        out.add(early);
        findings.push(finding('dose-report.superseded', '', names));
      } else if (found === 'unclear') holdBack(finding('dose-report.overlap', '', names));
    }
  });
  const counted = held ? [] : once.filter(one => !out.has(one));
  if (counted.length > 1) {
    const systems = counted.map(({ file, report }) => `${file} (${systemText(report) ?? '-'})`).join('; ');
    findings.push(finding('dose-report.added', '', { n: `${counted.length}`, systems }));
  }
  return { counted, figures: added(counted.map(({ report }) => report)), findings };
}

function sameCase(a: DoseReport, b: DoseReport): boolean {
  const same = (x: string | undefined, y: string | undefined) => x !== undefined && x === y;
  return same(a.study, b.study) || same(a.accession, b.accession);
}

/** Each figure of all reports of its kind; one that a report lacks is lacking as a whole. */
function added(reports: readonly DoseReport[]): CaseFigures {
  const all = reports.map(report => ({ kind: report.kind, figures: figuresOf(report) }));
  const names = Object.keys(figureUnits) as FigureName[];
  const sums = names.flatMap(name => {
    const kind = name === 'doseLengthProduct' || name === 'ctDoseIndex' ? 'ct' : 'x-ray';
    const parts = all.filter(one => one.kind === kind).map(one => one.figures[name]);
    const known = parts.filter(part => part !== undefined);
    const [only] = known;
    if (!only || known.length < parts.length) return [];
    if (known.length === 1) return [[name, only] as const];
    // A mean of means, or of scans of two scanners, is no figure that anybody stated.
    const sum = name === 'ctDoseIndex' ? undefined : summed(known, figureUnits[name]);
    const fromEvents = known.reduce((n, part) => n + (part.fromEvents ?? 0), 0);
    return sum ? [[name, { ...sum, ...(fromEvents > 0 && { fromEvents }) }] as const] : [];
  });
  return Object.fromEntries(sums);
}
