import type { CatalogueEntry } from './define.js';
import { agreementWording } from './wording/agreement.js';
import { bulkWording } from './wording/bulk.js';
import { clinicalWording } from './wording/clinical.js';
import { codesWording } from './wording/codes.js';
import { conformanceWording } from './wording/conformance.js';
import { correctionWording } from './wording/corrections.js';
import { courseWording } from './wording/course.js';
import { deliveryWording } from './wording/delivery.js';
import { deliveryConflictsWording } from './wording/delivery-conflicts.js';
import { deliveryProfilesWording } from './wording/delivery-profiles.js';
import { doseReportWording } from './wording/dose-reports.js';
import { doseWording } from './wording/doses.js';
import { draftWording } from './wording/drafts.js';
import { formWording } from './wording/form.js';
import { intakeWording } from './wording/intake.js';
import { intakeOrderWording } from './wording/intake-order.js';
import { labelWording } from './wording/labels.js';
import { leftWording } from './wording/left.js';
import { lineWording } from './wording/lines.js';
import { missingWording } from './wording/missing.js';
import { pictureWording } from './wording/pictures.js';
import { reactionWording } from './wording/reactions.js';
import { recordWording } from './wording/record.js';
import { registerWording } from './wording/register.js';
import { registerDestinationWording } from './wording/register-destination.js';
import { registryWording } from './wording/registry.js';
import { reportWording } from './wording/report.js';
import { reportPdfWording } from './wording/report-pdf.js';
import { siteWording } from './wording/site.js';
import { sizeWording } from './wording/sizes.js';
import { tallyWording } from './wording/tally.js';
import { templateWording } from './wording/templates.js';
import { tradeWording } from './wording/trade.js';

/** Every finding Casetally can give: one row a code, wording apart from the rules that use it. */
export const catalogue = {
  ...recordWording,
  ...intakeOrderWording,
  ...labelWording,
  ...sizeWording,
  ...tallyWording,
  ...courseWording,
  ...leftWording,
  ...lineWording,
  ...missingWording,
  ...agreementWording,
  ...clinicalWording,
  ...tradeWording,
  ...reactionWording,
  ...doseWording,
  ...doseReportWording,
  ...reportWording,
  ...reportPdfWording,
  ...pictureWording,
  ...correctionWording,
  ...conformanceWording,
  ...deliveryWording,
  ...deliveryConflictsWording,
  ...deliveryProfilesWording,
  ...codesWording,
  ...draftWording,
  ...formWording,
  ...registerWording,
  ...registerDestinationWording,
  ...registryWording,
  ...siteWording,
  ...intakeWording,
  ...templateWording,
  ...bulkWording,
} satisfies Record<string, CatalogueEntry>;

export type FindingCode = keyof typeof catalogue;
