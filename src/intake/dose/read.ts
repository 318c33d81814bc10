import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { settleCharset } from './charset.js';
import { concepts } from './concepts.js';
import { type ContentItem, contentOf, type DicomSet, textOf } from './content.js';
import { ctEventsOf, ctTotalsOf } from './ct.js';
import { Unreadable } from './fault.js';
import { Figures } from './figures.js';
import { headOf } from './head.js';
import { damaged, dataBytes, withHeader } from './part10.js';
import type { DoseReport } from './report.js';
import { walk } from './structure.js';
import { totalsFindings } from './totals.js';
import { planesOf, xrayEventsOf } from './x-ray.js';

/** A dose report as far as it could be read; `report` is absent where a finding says why it is none. */
export interface ReadDose {
  readonly report?: DoseReport;
  readonly findings: readonly Finding[];
}

/**
 * Reads an X-Ray Radiation Dose SR or a CT Radiation Dose SR (DICOM PS3.16, TID 10001 and TID 10011) from the bytes of
 * a file. Nothing throws for what a file holds, and nothing of a file that is damaged is given.
 */
export async function readDoseReport(bytes: Uint8Array): Promise<ReadDose> {
  try {
    const { set, foreign } = await dataSetOf(bytes);
    return read(set, foreign);
  } catch (error) {
    if (error instanceof Unreadable) return { findings: [error.finding] };
    throw error;
  }
}

async function dataSetOf(bytes: Uint8Array): Promise<{ set: DicomSet; foreign: boolean }> {
  const found = dataBytes(bytes);
  const { data, charsets } = walk(found);
  const settled = charsets.map(({ at, length }) => settleCharset(data.subarray(at, at + length)));
  // Loaded for the first file: other commands do without its 70 ms.
  const { default: library } = await import('dcmjs');
  for (const log of [library.log, ...Object.values(library.log.getLoggers())]) log.setLevel('silent', false);
  try {
    const { dict } = library.data.DicomMessage.readFile(withHeader({ ...found, data }));
    return { set: dict, foreign: settled.length > 0 && settled.every(one => one) };
  } catch {
    // The structure is sound, so that a value is not: where, the library does not say.
    throw damaged(0);
  }
}

function read(set: DicomSet, foreign: boolean): ReadDose {
  const root = contentOf(set, foreign);
  if (root.concept?.code !== concepts.report || root.concept.scheme !== 'DCM')
    throw new Unreadable(finding('dose-report.other-report', '', { found: root.concept?.meaning ?? '-' }));
  const figures = new Figures();
  const head = headOf(set, root, foreign);
  const scope = figures.coded(root, concepts.scope);
  const ct = root.children.some(
    ({ concept }) => concept?.code === concepts.ctAccumulated || concept?.code === concepts.ctAcquisition,
  );
  const report: DoseReport = {
    ...head,
    kind: ct ? 'ct' : 'x-ray',
    ...(scope && { scope }),
    planes: planesOf(root, figures),
    xrayEvents: xrayEventsOf(root, figures),
    ...(ct && { ct: ctTotalsOf(root, figures) }),
    ctEvents: ctEventsOf(root, figures),
  };
  return {
    report,
    findings: [
      ...headFindings(set, report),
      ...figures.findings,
      ...ignored(set, root),
      ...totalsFindings(report),
    ],
  };
}

function headFindings(set: DicomSet, { patient, instance }: DoseReport): Finding[] {
  const named = set['00100010']?._rawValue ?? '';
  return [
    ...(patient.name === undefined && String(named) !== ''
      ? [finding('dose-report.name-unread', '', {})]
      : []),
    ...(instance === undefined ? [finding('dose-report.no-instance', '', {})] : []),
    ...(textOf(set, '0040A491') === 'PARTIAL' ? [finding('dose-report.partial', '', {})] : []),
  ];
}

/** What is private to its maker: neither read nor counted. */
function ignored(set: DicomSet, root: ContentItem): Finding[] {
  const names: string[] = [];
  const visit = ({ concept, children }: ContentItem) => {
    if (concept?.scheme.startsWith('99')) names.push(concept.meaning);
    children.forEach(visit);
  };
  visit(root);
  const tags = Object.keys(set).filter(tag => Number.parseInt(tag.slice(0, 4), 16) % 2 === 1).length;
  if (names.length + tags === 0) return [];
  const some = [...new Set(names)].slice(0, 3).map(name => name.slice(0, 64));
  return [
    finding('dose-report.private', '', {
      n: `${names.length + tags}`,
      names: some.length > 0 ? some.join(', ') : '-',
    }),
  ];
}
