import type { FindingCode } from './catalogue.js';
import type { Severity } from './define.js';
import type { Finding } from './finding.js';

/** Beginnings of codes by what harm to the patient stands behind them, the worst first. */
const harms: readonly (readonly string[])[] = [
  // What is, or may be, in the patient and should not be.
  [
    'tally.retained',
    'tally.unaccounted',
    'tally.part-',
    'tally.pieces',
    'tally.missing',
    'tally.count-',
    'tally.lost',
    'tally.left-never',
    'tally.left-removed',
    'tally.carried-unsaid',
  ],
  [
    'clinical.death',
    'clinical.consent-refused',
    'clinical.allergy',
    'clinical.heparin-after-hit',
    'clinical.reaction',
    'clinical.complication-without-reaction',
  ],
  [
    'clinical.side-',
    'clinical.level-',
    'clinical.sex-',
    'clinical.age-',
    'tally.other-side',
    'clinical.kind-differs',
  ],
  [
    'clinical.drug-',
    'clinical.local-anaesthetic',
    'clinical.route',
    'clinical.strength',
    'clinical.weight',
    'clinical.value-unlikely',
    'clinical.contrast',
    'clinical.egfr',
    'clinical.dose',
    'clinical.pregnan',
    'clinical.sedation',
    'clinical.fasting',
  ],
  [
    'clinical.hold',
    'clinical.lab',
    'clinical.anticoagulant',
    'clinical.prophylaxis-differs',
    'clinical.haemoglobin',
    'clinical.complication',
    'clinical.severity',
    'clinical.status',
    'clinical.kidney-injury',
    'clinical.bleeding',
  ],
  ['tally.', 'size.'],
  ['clinical.'],
  ['device.', 'label.'],
  ['record.', 'report.', 'registry.', 'fhir.', 'conformance.'],
];

const severities: Record<Severity, number> = { fatal: 0, error: 1, warning: 2, information: 3 };

const rankOf = (code: FindingCode): number => {
  const rank = harms.findIndex(starts => starts.some(start => code.startsWith(start)));
  return rank < 0 ? harms.length : rank;
};

/**
 * For people: what could not be read first, then by harm to the patient, notes last. Findings of equal harm keep the
 * order in which they came.
 */
export function byHarm(findings: readonly Finding[]): Finding[] {
  const place = ({ severity, code }: Finding) =>
    severity === 'fatal' ? -1 : severity === 'information' ? harms.length + 1 : rankOf(code);
  return [...findings].sort((a, b) => place(a) - place(b) || severities[a.severity] - severities[b.severity]);
}
