import { finding } from '../../findings/finding.js';
import { concepts, planeCodes } from './concepts.js';
import { type ContentItem, childrenOf } from './content.js';
import { type Figures, known } from './figures.js';
import type { PlaneTotals, XrayEvent } from './report.js';

/** Totals of each plane: TID 10002. Two sets of totals for one plane are left out, since nobody can tell which counts. */
export function planesOf(root: ContentItem, figures: Figures): PlaneTotals[] {
  const all = childrenOf(root, concepts.accumulated).flatMap(item => totalsOf(item, figures) ?? []);
  const twice = all.filter(({ plane }) => all.filter(other => other.plane === plane).length > 1);
  for (const plane of new Set(twice.map(one => one.plane)))
    figures.findings.push(finding('dose-report.plane-twice', '', { plane }));
  const mixed = all.some(({ plane }) => plane === 'single') && all.some(({ plane }) => plane !== 'single');
  if (mixed) {
    figures.findings.push(finding('dose-report.planes-mixed', '', {}));
    return [];
  }
  return all.filter(one => !twice.includes(one));
}

function totalsOf(item: ContentItem, figures: Figures): PlaneTotals | undefined {
  const coded = figures.coded(item, concepts.plane);
  const plane = coded && planeCodes[coded.code];
  if (!plane) {
    figures.findings.push(finding('dose-report.plane-unknown', '', { found: coded?.meaning ?? '-' }));
    return undefined;
  }
  return {
    plane,
    ...known<Omit<PlaneTotals, 'plane'>>({
      doseAreaProduct: figures.of(item, concepts.doseAreaProduct, 'kermaArea'),
      fluoroDoseAreaProduct: figures.of(item, concepts.fluoroDoseAreaProduct, 'kermaArea'),
      acquisitionDoseAreaProduct: figures.of(item, concepts.acquisitionDoseAreaProduct, 'kermaArea'),
      doseRp: figures.of(item, concepts.doseRp, 'kerma'),
      fluoroDoseRp: figures.of(item, concepts.fluoroDoseRp, 'kerma'),
      acquisitionDoseRp: figures.of(item, concepts.acquisitionDoseRp, 'kerma'),
      fluoroTime: figures.of(item, concepts.fluoroTime, 'duration'),
      acquisitionTime: figures.of(item, concepts.acquisitionTime, 'duration'),
      frames: figures.of(item, concepts.frames, 'count'),
    }),
  };
}

/** Irradiation events: TID 10003. */
export function xrayEventsOf(root: ContentItem, figures: Figures): XrayEvent[] {
  return childrenOf(root, concepts.event).map(item => {
    const plane = figures.coded(item, concepts.plane);
    return known<XrayEvent>({
      uid: figures.text(item, concepts.eventUid),
      started: figures.text(item, concepts.started),
      plane: plane && planeCodes[plane.code],
      type: figures.coded(item, concepts.eventType),
      protocol: figures.text(item, concepts.protocol),
      target: figures.coded(item, concepts.target),
      doseAreaProduct: figures.of(item, concepts.eventDoseAreaProduct, 'kermaArea'),
      doseRp: figures.of(item, concepts.eventDoseRp, 'kerma'),
      kvp: figures.of(item, concepts.kvp, 'other'),
      pulseRate: figures.of(item, concepts.pulseRate, 'other'),
      pulses: figures.of(item, concepts.pulses, 'other'),
      duration: figures.of(item, concepts.duration, 'other'),
    });
  });
}
