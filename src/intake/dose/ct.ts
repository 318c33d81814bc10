import { finding } from '../../findings/finding.js';
import { concepts } from './concepts.js';
import { type ContentItem, childOf, childrenOf } from './content.js';
import { type Figures, known } from './figures.js';
import type { CtEvent, DoseReport } from './report.js';

/** Totals of CT: TID 10012. */
export function ctTotalsOf(root: ContentItem, figures: Figures): NonNullable<DoseReport['ct']> {
  const found = childrenOf(root, concepts.ctAccumulated);
  const [item] = found;
  if (found.length > 1)
    figures.findings.push(finding('dose-report.said-twice', '', { what: 'CT Accumulated Dose Data' }));
  if (!item || found.length > 1) return {};
  return known<NonNullable<DoseReport['ct']>>({
    events: figures.of(item, concepts.ctEvents, 'count'),
    doseLengthProduct: figures.of(item, concepts.ctDlp, 'kermaLength'),
  });
}

/** CT acquisitions: TID 10013. */
export function ctEventsOf(root: ContentItem, figures: Figures): CtEvent[] {
  return childrenOf(root, concepts.ctAcquisition).map(item => {
    const dose = childOf(item, concepts.ctDose);
    const parameters = childOf(item, concepts.ctParameters);
    const source = parameters && childOf(parameters, concepts.ctSource);
    return known<CtEvent>({
      uid: figures.text(item, concepts.eventUid),
      type: figures.coded(item, concepts.ctType),
      protocol: figures.text(item, concepts.protocol),
      target: figures.coded(item, concepts.target),
      phantom: dose && figures.coded(dose, concepts.ctPhantom),
      kvp: source && figures.of(source, concepts.kvp, 'other'),
      doseIndex: dose && figures.of(dose, concepts.ctDoseIndex, 'kerma'),
      doseLengthProduct: dose && figures.of(dose, concepts.dlp, 'kermaLength'),
    });
  });
}
