import { COMMON_PRACTICE, define } from '../define.js';

const RELATES = 'FHIR R4 DocumentReference.relatesTo and DocumentReference.status';

/** Wording of the findings about a later version of a report. */
export const correctionWording = define({
  'correction.earlier-not-given': {
    severity: 'warning',
    message:
      'This report follows version {versions}, which is not at hand: its document stays current at the destination beside this one, and resources that this version no longer has stay as they are.',
    remedy: 'Prepare and send with --previous and the record of that version.',
    basis: RELATES,
  },
  'correction.other-case': {
    severity: 'error',
    message: "The earlier version is of case '{found}', this one of case '{expected}'.",
    remedy: 'Name the earlier version of the same case; a case keeps its number through all versions.',
    basis: COMMON_PRACTICE,
  },
  'correction.other-patient': {
    severity: 'error',
    message: 'No patient number of this version is one of the earlier version: they are of two patients.',
    remedy:
      'Withdraw the earlier version under its own patient, and send this one as a case with a number of its own. Where a number was only mistyped, keep the old one beside the new one.',
    basis: COMMON_PRACTICE,
  },
  'correction.version-order': {
    severity: 'error',
    message: 'This is version {found}; the version before it is {previous}.',
    remedy: 'Number the versions upwards: set report.version.',
    basis: 'FHIR R4 composition-clinicaldocument-versionNumber',
  },
  'correction.of-other-version': {
    severity: 'error',
    message: 'The change is of version {found}; the version before this one is {previous}.',
    remedy: 'Mend report.change.of, or name the version that it means with --previous.',
    basis: RELATES,
  },
  'correction.after-withdrawn': {
    severity: 'error',
    message: 'Version {previous} is withdrawn: no version follows it.',
    remedy: 'Report the case anew under a case number of its own.',
    basis: 'FHIR R4 composition-status: entered in error',
  },
  'correction.status-order': {
    severity: 'error',
    message: "The report is '{status}' and follows version {previous}, which is '{was}'.",
    remedy: 'A signed report is followed by one that is amended, appended or withdrawn: set report.status.',
    basis: 'FHIR R4 composition-status',
  },
  'correction.nothing-changed': {
    severity: 'warning',
    message: "The report is '{status}', but tells nothing else than version {previous}.",
    remedy: 'Look whether the right files were named; a new version needs no sending when nothing changed.',
    basis: COMMON_PRACTICE,
  },
  'correction.addendum-changes': {
    severity: 'warning',
    message: 'An addendum leaves what was said as it was; here it is told otherwise: {what}.',
    remedy: "Set report.status to 'amended' when the report itself was wrong.",
    basis: 'FHIR R4 composition-status: amended; DocumentReference.relatesTo: appends',
  },
  'correction.change-half-told': {
    severity: 'warning',
    message: 'The change does not say {missing}.',
    remedy:
      'Add report.change.by and report.change.at, so that readers know who changed the report and when.',
    basis: COMMON_PRACTICE,
  },
});
