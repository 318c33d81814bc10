import type { Assessment } from '../../clinical/assessment.js';
import { isReviewed, languageData } from '../../findings/languages.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { clean } from '../characters.js';
import type { ReportOptions } from '../options.js';
import { type Printer, printer } from '../print/printer.js';
import { allergies, anticoagulants, beforeSection, consentSection } from './before.js';
import {
  caseSection,
  caseStatus,
  dateOfCase,
  identityFacts,
  identityOf,
  indication,
  indicationSection,
  placeOf,
  procedure,
  side,
  teamSection,
  titleOf,
} from './case.js';
import {
  advice,
  adviceSection,
  contact,
  signatureFact,
  signatureSection,
  statusFact,
  statusOf,
  warningsSection,
} from './closing.js';
import { codesSection } from './codes.js';
import { course } from './course.js';
import { devicesSection } from './devices.js';
import { contrast, doseSection, radiation, specimens, specimensSection } from './dose.js';
import { drugsSection } from './drugs.js';
import { endingOf } from './ending.js';
import { insideFact, insideItems, insideSection } from './inside.js';
import type { ReportView, Section, SectionKey } from './model.js';
import { bloodLoss, conclusion, leaving, outcome, outcomeSection } from './outcome.js';
import { patientView } from './patient.js';
import {
  complications,
  complicationsSection,
  findingsSection,
  imagesSection,
  pictureItems,
} from './results.js';
import { aftercareSection, tasksOf } from './tasks.js';
import { techniqueSection, waysIn } from './technique.js';
import { whereaboutsItems } from './whereabouts.js';
import { workedSection } from './worked.js';

/** What is to be known of the language of a report: that it is not whole, that nobody of the trade reviewed it. */
const ofLanguage = (p: Printer): string[] => [
  ...(languageData(p.language).complete ? [] : [p.say('caution.partial')]),
  ...(isReviewed(p.language) ? [] : [p.say('caution.unreviewed')]),
];

/**
 * Says a case in reader's words: one view, of which every audience and format is a selection.
 * Pure: the same record, assessment and options give the same view, in any time zone.
 * Characters that no report may carry are already replaced (see `characterFindings`).
 */
export function buildView(
  record: CaseRecord,
  assessment: Assessment,
  options: ReportOptions = {},
): ReportView {
  const p = printer(record, assessment, options);
  const section: Record<SectionKey, Section> = {
    case: caseSection(p),
    indication: indicationSection(p),
    before: beforeSection(p),
    consent: consentSection(p),
    team: teamSection(p),
    drugs: drugsSection(p),
    technique: techniqueSection(p),
    devices: devicesSection(p),
    findings: findingsSection(p),
    images: imagesSection(p),
    complications: complicationsSection(p),
    outcome: outcomeSection(p),
    inside: insideSection(p),
    specimens: specimensSection(p),
    dose: doseSection(p),
    aftercare: aftercareSection(p),
    advice: adviceSection(p, options.contact),
    worked: workedSection(p),
    warnings: warningsSection(p),
    signature: signatureSection(p, options),
    codes: codesSection(p),
  };
  return clean({
    language: p.language,
    title: titleOf(p),
    date: p.date(record.case.date),
    caseId: record.case.id,
    place: placeOf(p),
    identity: identityOf(p),
    status: statusOf(p),
    facts: {
      ...identityFacts(p),
      status: statusFact(p),
      signature: signatureFact(p),
      procedure: procedure(p),
      side: side(p),
      date: dateOfCase(p),
      indication: indication(p),
      caseStatus: caseStatus(p),
      outcome: outcome(p),
      course: course(p),
      conclusion: conclusion(p),
      complications: complications(p),
      allergies: allergies(p),
      anticoagulants: anticoagulants(p),
      access: waysIn(p),
      condition: leaving(p, 'condition'),
      disposition: leaving(p, 'disposition'),
      bloodLoss: bloodLoss(p),
      contrast: contrast(p),
      radiation: radiation(p),
      specimens: specimens(p),
      inside: insideFact(p),
      contact: contact(p, options.contact),
      adviceWard: advice(p, 'ward'),
      adviceReferrer: advice(p, 'referrer'),
      advicePatient: advice(p, 'patient'),
    },
    inside: insideItems(p),
    whereabouts: whereaboutsItems(p),
    ending: endingOf(p),
    tasks: tasksOf(p),
    pictures: pictureItems(p),
    patient: patientView(p, options.contact),
    caution: [p.say('caution.decision'), p.say('caution.computed'), ...ofLanguage(p)],
    section,
  });
}
