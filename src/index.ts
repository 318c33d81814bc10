/**
 * Casetally as a library: read a case, prepare it, send it. Decision support only; local policy and licensed
 * judgement come first.
 */

export type { AftercareItem, DueDate } from './clinical/aftercare/aftercare.js';
export type { CalendarOptions } from './clinical/aftercare/calendar.js';
export { aftercareCalendar } from './clinical/aftercare/calendar.js';
export type { AssessOptions } from './clinical/assess.js';
export { assess } from './clinical/assess.js';
export type { Assessment } from './clinical/assessment.js';
export type { Calculation } from './clinical/calculation.js';
export type { ClinicalLimits, Limit } from './clinical/limits.js';
export type { Turnover } from './clinical/turnover.js';
export { turnovers } from './clinical/turnover.js';
export type { Result, Validator } from './conformance/result.js';
export type { SendOutcome } from './delivery/answer/outcome.js';
export { isDelivered } from './delivery/answer/outcome.js';
export type { Destination } from './delivery/destination/destination.js';
export { destinationAt } from './delivery/destination/destination.js';
export type { Receipt, ReceiptEntry } from './delivery/receipt/receipt.js';
export { decodeLabel } from './devices/labels/decode.js';
export type { DecodedLabel, LabelOptions } from './devices/labels/types.js';
export type { DeviceDetails, DeviceTally, EndState, TallyEntry } from './devices/types.js';
export type { ResourceEntry, ResourceSet } from './fhir/set.js';
export type { Severity } from './findings/define.js';
export { CasetallyError } from './findings/errors.js';
export type { Finding } from './findings/finding.js';
export type { CheckedCase, TallyRow } from './pipeline/check.js';
export { assessParsed, checkCase, tallyRows } from './pipeline/check.js';
export { readPictures } from './pipeline/pictures/read.js';
export type { PreparedCase, PrepareOptions, RenderedReport, Tools } from './pipeline/prepare.js';
export { prepareCase } from './pipeline/prepare.js';
export type { CaseToSend, ReadAgain, SendCaseDeps, SentCase } from './pipeline/send-case.js';
export { readCaseBack, sendCase, submitCase } from './pipeline/send-case.js';
export type { SignedCase, SiteKey, Verdict } from './pipeline/signing.js';
export { readSiteKey, signCase, verifyBytes } from './pipeline/signing.js';
export { loadTools } from './pipeline/tools.js';
export type { EarlierVersion } from './pipeline/versions.js';
export type { ChangedFact } from './record/changes/compare.js';
export { compareRecords } from './record/changes/compare.js';
export { recordDigest } from './record/digest.js';
export { caseRecordJsonSchema } from './record/json-schema.js';
export type { ParsedCase, ParseOptions } from './record/parse.js';
export { parseCase, parseCaseData } from './record/parse.js';
export type { CaseRecord } from './record/schema/record.js';
export type { RegistryEntry } from './registry/entry.js';
export { registryEntries } from './registry/entry.js';
export type { PseudonymKey, RegistryOptions } from './registry/options.js';
export type { RegistryManifest, RegistrySubmission } from './registry/submission.js';
export { registrySubmission } from './registry/submission.js';
export { loadPdf } from './report/pdf/load.js';
export type { PdfMaker, PdfOptions } from './report/pdf/options.js';
export type { ReadPictures, StoredPicture, StoredPictures } from './report/pictures/stored.js';
export { parseSite } from './site/parse.js';
export type { Site } from './site/site.js';
export { unconfiguredSite } from './site/site.js';
