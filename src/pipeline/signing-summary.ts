import type { Finding } from '../findings/finding.js';
import { byHarm } from '../findings/harm.js';
import type { Language } from '../findings/languages.js';
import type { InsideItem } from '../report/view/model.js';
import { buildView } from '../report/view/view.js';
import type { Site } from '../site/site.js';
import type { CheckedCase } from './check.js';
import { goesTo } from './destinations.js';
import { reportOptions } from './settings.js';

/** One thing that whoever signs stands by, in words. */
export interface SignedFact {
  readonly key: string;
  readonly label: string;
  readonly lines: readonly string[];
}

/** What is said before somebody signs: of whom, what, which side, what stays, where it goes. */
export interface SigningSummary {
  /** Who answers for the report, as the record has them. */
  readonly author?: { readonly key: string; readonly name: string; readonly role: string };
  readonly facts: readonly SignedFact[];
  /** What stays in the patient. */
  readonly inside: readonly InsideItem[];
  /** What is unaccounted for, or cannot be found. */
  readonly whereabouts: readonly InsideItem[];
  /** What stands at the head of the report. */
  readonly notices: readonly string[];
  /** Where it goes when no destination is chosen. */
  readonly goesTo: readonly string[];
  /** By harm to the patient. */
  readonly findings: readonly Finding[];
}

/** Undefined for a record that is not whole. */
export function signingSummary(
  { record, assessment, findings }: CheckedCase,
  site: Site,
  language?: Language,
): SigningSummary | undefined {
  if (!record || !assessment) return undefined;
  const { facts, inside, whereabouts, status } = buildView(record, assessment, {
    ...reportOptions(site),
    ...(language && { language }),
  });
  const signed = [
    'name',
    'birthDate',
    'identifiers',
    'procedure',
    'side',
    'date',
    'caseId',
    'outcome',
  ] as const;
  const author = record.team.find(({ key }) => key === record.report.author);
  return {
    ...(author && { author: { key: author.key, name: author.name, role: author.role } }),
    facts: [...signed, 'inside' as const, 'signature' as const].map(key => {
      const { label, lines } = facts[key];
      return { key, label, lines };
    }),
    ...{ inside, whereabouts, notices: status.notices, goesTo: goesTo(site, record) },
    findings: byHarm(findings),
  };
}
