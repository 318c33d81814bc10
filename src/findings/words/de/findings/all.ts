import { agreementFindings } from './agreement.js';
import { bulkFindings } from './bulk.js';
import { clinicalFindings } from './clinical.js';
import { codesFindings } from './codes.js';
import { conformanceFindings } from './conformance.js';
import { conformanceBundleFindings } from './conformance-bundle.js';
import { correctionFindings } from './corrections.js';
import { courseFindings } from './course.js';
import { deliveryFindings } from './delivery.js';
import { deliveryConflictsFindings } from './delivery-conflicts.js';
import { deliveryProfilesFindings } from './delivery-profiles.js';
import { doseReportFindings } from './dose-reports.js';
import { doseFindings } from './doses.js';
import { draftFindings } from './drafts.js';
import { formFindings } from './form.js';
import { intakeFindings } from './intake.js';
import { intakeOrderFindings } from './intake-order.js';
import { labelFindings } from './labels.js';
import { leftFindings } from './left.js';
import { lineFindings } from './lines.js';
import { missingFindings } from './missing.js';
import { pictureFindings } from './pictures.js';
import { reactionFindings } from './reactions.js';
import { recordFindings } from './record.js';
import { registerFindings } from './register.js';
import { registerDestinationFindings } from './register-destination.js';
import { registryFindings } from './registry.js';
import { reportFindings } from './report.js';
import { reportPdfFindings } from './report-pdf.js';
import { siteFindings } from './site.js';
import { sizeFindings } from './sizes.js';
import { tallyFindings } from './tally.js';
import { templateFindings } from './templates.js';
import { tradeFindings } from './trade.js';

/** Alle Befunde und ihre Abhilfen, außer den Warnungen, die ein Bericht druckt. */
export const findings = {
  ...recordFindings,
  ...bulkFindings,
  ...clinicalFindings,
  ...tallyFindings,
  ...agreementFindings,
  ...courseFindings,
  ...doseFindings,
  ...doseReportFindings,
  ...leftFindings,
  ...lineFindings,
  ...missingFindings,
  ...reactionFindings,
  ...sizeFindings,
  ...intakeOrderFindings,
  ...labelFindings,
  ...tradeFindings,
  ...correctionFindings,
  ...pictureFindings,
  ...reportFindings,
  ...reportPdfFindings,
  ...siteFindings,
  ...codesFindings,
  ...draftFindings,
  ...formFindings,
  ...deliveryFindings,
  ...deliveryConflictsFindings,
  ...deliveryProfilesFindings,
  ...registerFindings,
  ...registerDestinationFindings,
  ...registryFindings,
  ...intakeFindings,
  ...templateFindings,
  ...conformanceFindings,
  ...conformanceBundleFindings,
};
