import type { FindingCode } from './catalogue.js';
import type { Severity } from './define.js';
import type { Finding } from './finding.js';

/** Beginnings of codes by what harm to the patient stands behind them, the worst first. */
const harms: readonly (readonly string[])[] = [
  // What is, or may be, in the patient and should not be.
  [
    'tally.retained',
    'clinical.retained',
    'tally.unaccounted',
    'tally.part-',
    'tally.pieces',
    'tally.missing',
    'tally.count-',
    'tally.lost',
    'tally.left-never',
    'tally.left-removed',
    'tally.carried-unsaid',
    'intake.kit-device-open',
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

const keyOf = ({ code, path }: Pick<Finding, 'code' | 'path'>) => `${code} ${path}`;

/**
 * For people: what could not be read first, then by harm to the patient, notes last. A cause stands before whatever
 * follows from it, and where the worst of that would. Findings of equal harm keep the order in which they came.
 */
export function byHarm(findings: readonly Finding[]): Finding[] {
  const placeAlone = ({ severity, code }: Finding) =>
    severity === 'fatal' ? -1 : severity === 'information' ? harms.length + 1 : rankOf(code);
  const causes = new Map<string, number>();
  for (const f of findings)
    if (f.follows) {
      const key = keyOf(f.follows);
      // Just before the worst of them.
      causes.set(key, Math.min(causes.get(key) ?? Number.MAX_VALUE, placeAlone(f) - 0.5));
    }
  const place = (f: Finding) => Math.min(placeAlone(f), causes.get(keyOf(f)) ?? Number.MAX_VALUE);
  return [...findings].sort((a, b) => place(a) - place(b) || severities[a.severity] - severities[b.severity]);
}

/** A finding, and those that would go with it. */
export interface Cause {
  readonly finding: Finding;
  readonly following: readonly Finding[];
}

/** Every finding that stands by itself, in the order given, with those that follow from it. */
export function withFollowing(findings: readonly Finding[]): Cause[] {
  const behind = new Map(findings.map(finding => [keyOf(finding), [] as Finding[]]));
  const alone: Finding[] = [];
  for (const finding of findings)
    ((finding.follows && behind.get(keyOf(finding.follows))) ?? alone).push(finding);
  return alone.map(finding => ({ finding, following: behind.get(keyOf(finding)) ?? [] }));
}
