/**
 * Casetally as a library: read a case, prepare it, send it. Decision support only; local policy and licensed
 * judgement come first.
 */

export type { Head } from './audit/chain.js';
export type { KeptEntry, TrailVerdict } from './audit/verify.js';
export { exportedEntries, verifyTrail } from './audit/verify.js';
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
export type { SecretSource } from './delivery/auth/secrets.js';
export { secretSource } from './delivery/auth/secrets.js';
export type { Destination } from './delivery/destination/destination.js';
export { destinationAt } from './delivery/destination/destination.js';
export type { SendDeps, Target } from './delivery/destination/session.js';
export type { PostgresOutboxOptions } from './delivery/outbox/open-postgres.js';
export { openPostgresOutbox } from './delivery/outbox/open-postgres.js';
export type { NewItem, Outbox, OutboxItem } from './delivery/outbox/outbox.js';
export type { Sealing } from './delivery/outbox/sealing.js';
export { sealingWith } from './delivery/outbox/sealing.js';
export type { SqliteOutboxOptions } from './delivery/outbox/sqlite-outbox.js';
export { openSqliteOutbox } from './delivery/outbox/sqlite-outbox.js';
export type { Acceptance } from './delivery/patient/accept.js';
export type { Receipt, ReceiptEntry } from './delivery/receipt/receipt.js';
export { decideItem, makeDue, reopen } from './delivery/worker/decisions.js';
export { whatNext } from './delivery/worker/next.js';
export type { WorkerDeps, WorkerEvent } from './delivery/worker/worker.js';
export { drain, runWorker } from './delivery/worker/worker.js';
export { decodeLabel } from './devices/labels/decode.js';
export type { DecodedLabel, LabelOptions } from './devices/labels/types.js';
export type { DeviceDetails, DeviceTally, EndState, TallyEntry } from './devices/types.js';
export type { Delta } from './drafts/delta.js';
export { applyEdits, type EditBatch, type Edited, editsBetween } from './drafts/edit.js';
export { type Edit, readEdits } from './drafts/edits.js';
export { type MergeInput, mergeEdits, mergeText } from './drafts/merge.js';
export type { Conflict } from './drafts/merge-nodes.js';
export { moveDraft, type Saved, type Saving, saveEdits, saveText } from './drafts/save.js';
export { type Signing, signedText } from './drafts/sign.js';
export type {
  Draft,
  DraftState,
  DraftSummary,
  Drafts,
  NewVersion as NewDraftVersion,
  VersionRow as DraftVersion,
} from './drafts/store/drafts.js';
export { openPostgresDrafts, openSqliteDrafts } from './drafts/store/open.js';
export type { ResourceEntry, ResourceSet } from './fhir/set.js';
export type { Severity } from './findings/define.js';
export { CasetallyError } from './findings/errors.js';
export type { Finding, FindingRow } from './findings/finding.js';
export { findingRow, messageOf, remedyOf } from './findings/finding.js';
export type { Language } from './findings/languages.js';
export type { Message, Param } from './findings/message.js';
export { say } from './findings/say.js';
export type { Beginning } from './intake/begin.js';
export { beginRecord, openRemarks } from './intake/begin.js';
export { carriedOnce } from './intake/carried.js';
export type { About, Contribution, GivenValue, SourceKind, Typed } from './intake/contribution.js';
export type { DoseReading } from './intake/dose/files.js';
export { readDoseFiles } from './intake/dose/files.js';
export type { DoseReport, PlaneTotals, XrayEvent } from './intake/dose/report.js';
export type { FormOptions } from './intake/form/address.js';
export type { FromResponse, FromResponseOptions } from './intake/form/from-response.js';
export { fromResponse } from './intake/form/from-response.js';
export { questionnaire } from './intake/form/questionnaire.js';
export type { ToResponse, ToResponseOptions } from './intake/form/to-response.js';
export { toResponse } from './intake/form/to-response.js';
export type { Kit } from './intake/kits/read.js';
export { kitContribution, readKit } from './intake/kits/read.js';
export { kitJsonSchema } from './intake/kits/schema.js';
export { lineContextOf } from './intake/lines/context.js';
export { type LineContributionOptions, linesContribution } from './intake/lines/contribute.js';
export { type ReadLines, readLines } from './intake/lines/read.js';
export type {
  LineContext,
  LineReading,
  ListedDevice,
  ProposedDevice,
  ProposedDrug,
  ProposedEvent,
} from './intake/lines/types.js';
export type { Merged, MergeOptions } from './intake/merge.js';
export { mergeSources } from './intake/merge.js';
export { readContribution } from './intake/read-contribution.js';
export { type DeviceThere, type Scans, scanContribution } from './intake/scan/contribution.js';
export { devicesIn } from './intake/scan/there.js';
export {
  emptyTray,
  type ScannedDevice,
  type ScanOptions,
  type ScanOutcome,
  type ScanTray,
  scanned,
} from './intake/scan/tray.js';
export type { Written } from './intake/write/write.js';
export { writeRecord, writeRemarks } from './intake/write/write.js';
export { type CaseTrays, caseTrays, type PlacedRow } from './pipeline/case-trays.js';
export type { CheckedCase, TallyRow } from './pipeline/check.js';
export { assessParsed, checkCase, tallyRows } from './pipeline/check.js';
export type { NamesOfCases, OpenName, ProposedCode } from './pipeline/codes/open-names.js';
export { NameCount } from './pipeline/codes/open-names.js';
export type { CodeList } from './pipeline/codes/read-codes.js';
export { readCodes } from './pipeline/codes/read-codes.js';
export { withSiteCodes } from './pipeline/codes/site-codes.js';
export { openDestinations } from './pipeline/destinations.js';
export type { BroughtIn, Sources } from './pipeline/intake/bring-in.js';
export { beginFrom, bringIn } from './pipeline/intake/bring-in.js';
export { earlierCaseContribution, registerContribution } from './pipeline/intake/earlier.js';
export { kitsNamed } from './pipeline/intake/kits.js';
export { linesFor } from './pipeline/intake/lines-for.js';
export { type FetchedOrder, fetchOrder, type OrderHeld } from './pipeline/intake/order/fetch.js';
export { type OrderAsked, orderContribution } from './pipeline/intake/order/read.js';
export { symbolsIn } from './pipeline/intake/photo.js';
export type { OpenedCase, OpenedSite } from './pipeline/open-case.js';
export { openBytes } from './pipeline/open-case.js';
export { readPictures } from './pipeline/pictures/read.js';
export type { PreparedCase, PrepareOptions, RenderedReport, Tools } from './pipeline/prepare.js';
export { prepareCase } from './pipeline/prepare.js';
export { caseTools, prepareOpened, reportTools } from './pipeline/prepare-opened.js';
export type { PrintDeps, PrintedReport, ReportFormat, WantedReport } from './pipeline/print-report.js';
export { printReport } from './pipeline/print-report.js';
export type { ReadAgain } from './pipeline/read-case-back.js';
export { readCaseBack } from './pipeline/read-case-back.js';
export type { Conformance, Receiver } from './pipeline/receiver.js';
export { conformanceTo, openReceiver, receiverFindings } from './pipeline/receiver.js';
export { catchUp, type FeedDeps, feeding } from './pipeline/register/feed.js';
export { recallLines } from './pipeline/register/recall-lines.js';
export { factsOfCase, type TakenIn, takeCase } from './pipeline/register/take.js';
export type { RegistryBuild } from './pipeline/registry/build.js';
export { RegistryBuilder } from './pipeline/registry/build.js';
export type { BuiltFile, RegistryToBuild } from './pipeline/registry/collect.js';
export { registryKey } from './pipeline/registry/key.js';
export type { CaseToSend, SendCaseDeps, SentCase } from './pipeline/send-case.js';
export { sendCase, submitCase } from './pipeline/send-case.js';
export type { SignedCase, SiteKey, Verdict } from './pipeline/signing.js';
export { readSiteKey, signCase, verifyBytes } from './pipeline/signing.js';
export { type SignedFact, type SigningSummary, signingSummary } from './pipeline/signing-summary.js';
export { loadTools } from './pipeline/tools.js';
export type { EarlierVersion } from './pipeline/versions.js';
export type { ChangedFact } from './record/changes/compare.js';
export { compareRecords } from './record/changes/compare.js';
export { recordDigest } from './record/digest.js';
export { caseRecordJsonSchema } from './record/json-schema.js';
export type { ParsedCase, ParseOptions } from './record/parse.js';
export { parseCase, parseCaseData } from './record/parse.js';
export type { CaseRecord } from './record/schema/record.js';
export { caseFacts, type FactsOptions } from './register/case-facts.js';
export type { CaseFacts, CaseName, DeviceFact, PersonNumber, PlanFact } from './register/facts.js';
export { type FoldOptions, fold } from './register/fold.js';
export { openPostgresRegister, openSqliteRegister, type RegisterOptions } from './register/store/open.js';
export type {
  NewVersion,
  PlanFilter,
  PlanRow,
  RecallHit,
  RecallLine,
  Register,
  RegisterCounts,
  Taken,
  UseSummary,
} from './register/store/register.js';
export type { Decision, Gap, History, Unlinked, Use, UseEvent, UsePlan } from './register/use.js';
export type { RegistryEntry } from './registry/entry/entries.js';
export { type CaseEntries, registryEntries } from './registry/entry/entries.js';
export type { PseudonymKey, RegistryOptions } from './registry/options.js';
export type { CaseFate, RegistryManifest } from './registry/submission.js';
export { loadPdf } from './report/pdf/load.js';
export type { PdfMaker, PdfOptions } from './report/pdf/options.js';
export type { ReadPictures, StoredPicture, StoredPictures } from './report/pictures/stored.js';
export { parseSite } from './site/parse.js';
export type { Site } from './site/site.js';
export { unconfiguredSite } from './site/site.js';
export type { Offer } from './trays/offers.js';
export { type Chosen, eventOf } from './trays/taps.js';
