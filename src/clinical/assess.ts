import { applyAcknowledgements } from '../devices/acknowledge.js';
import { rowsOf } from '../devices/by-device.js';
import { type DetailOptions, describeDevices } from '../devices/details.js';
import { labelCaseFindings } from '../devices/labels/case-findings.js';
import { checkSizes } from '../devices/sizes/check.js';
import { tallyDevices } from '../devices/tally/tally.js';
import { type DeviceDetails, type DeviceTally, isInside } from '../devices/types.js';
import { type Finding, finding } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { withNightRemedy } from '../record/sense.js';
import { looksAtSkin } from '../trade/places.js';
import { type AftercareOptions, aftercareOf, plainCalendar } from './aftercare/aftercare.js';
import { checkAftercare } from './aftercare/checks.js';
import { checkAgreement } from './agreement/check.js';
import { checkOwnCase } from './agreement/own-case.js';
import type { Assessment } from './assessment.js';
import { assessBleeding } from './bleeding/bleeding.js';
import type { BleedingRisk } from './bleeding/table.js';
import { bodyFindings } from './body.js';
import { caseKindFindings } from './case-kind.js';
import { checkChronology } from './chronology/check.js';
import { withCauses } from './chronology/consequences.js';
import { defaultLimits } from './default-limits.js';
import { assessDrugs } from './drugs/drugs.js';
import { foundAllergies, reactionFindings } from './drugs/reactions.js';
import { intervals } from './intervals.js';
import { assessContrast } from './kidney/contrast.js';
import { assessKidney } from './kidney/kidney.js';
import type { ClinicalLimits } from './limits.js';
import { defaultScales, type Scale } from './outcome/adverse-event-scales.js';
import { assessComplications } from './outcome/adverse-events.js';
import { assessOutcome } from './outcome/outcome.js';
import { unlikelyValues } from './plausible.js';
import { unlikelyPlaces } from './plausible-places.js';
import { assessRadiation } from './radiation/radiation.js';

/** What a site brings to the assessment; everything has a default with a named source. */
export interface AssessOptions {
  readonly details?: DetailOptions;
  readonly limits?: ClinicalLimits;
  readonly scales?: readonly Scale[];
  readonly bleedingRisk?: Readonly<Record<string, BleedingRisk>>;
  readonly aftercare?: AftercareOptions;
  /** Whom to call at this site, when a record names nobody. */
  readonly contact?: string;
  /** Milliseconds since 1970, from the caller's clock: nothing that was done can be later. Absent: not checked. */
  readonly now?: number;
  /** System of the case numbers of this site: an earlier case is another one. Absent: not checked. */
  readonly caseSystem?: string;
  /** Days before expiry at which a device is pointed out. */
  readonly expiresSoonDays?: number;
}

/**
 * Works out everything that the record holds the facts for. Pure: the same record and options give the same assessment.
 * @param earlier findings of reading the record; they can be acknowledged like all others
 */
export function assess(
  record: CaseRecord,
  options: AssessOptions = {},
  earlier: readonly Finding[] = [],
): Assessment {
  const assessed = assessOnce(record, options, earlier);
  const findings = withCauses(
    record,
    assessed.findings,
    mended => assessOnce(mended, options, earlier).findings,
  );
  return { ...assessed, findings };
}

function assessOnce(record: CaseRecord, options: AssessOptions, earlier: readonly Finding[]): Assessment {
  const limits = options.limits ?? defaultLimits;
  const described = describeDevices(record, options.details);
  const { devices } = described;
  const tally = tallyDevices(record, devices);
  const sizes = checkSizes(record, devices);
  const planning = options.aftercare ?? plainCalendar;
  const radiation = assessRadiation(record, limits.radiation);
  const aftercare = aftercareOf(record, devices, planning, radiation.substantial);
  const bleeding = assessBleeding(record, limits.bleeding, options.bleedingRisk, devices);
  const parts = [
    radiation,
    assessContrast(record, limits.kidney),
    assessKidney(record, limits.kidney),
    bleeding,
    assessDrugs(record, limits.drugs, devices, bleeding.risk),
    { calculations: [], findings: reactionFindings(record) },
    {
      calculations: [],
      findings: [...bodyFindings(record), ...unlikelyValues(record), ...unlikelyPlaces(record)],
    },
    { calculations: [], findings: caseKindFindings(record.case.kind) },
    assessComplications(record, options.scales ?? defaultScales),
    assessOutcome(record, limits.outcome, devices, tally),
  ];
  const skinReview = aftercare.some(item => item.source === 'aftercare' && looksAtSkin(item.what));
  const findings = [
    ...earlier,
    ...checkChronology(record, options.now).map(found => withNightRemedy(record, found)),
    ...described.findings,
    ...labelFindings(record, devices, tally, options.expiresSoonDays),
    ...tally.findings,
    ...sizes.findings,
    ...checkAgreement(record, devices, tally),
    ...checkOwnCase(record, options.caseSystem),
    ...parts.flatMap(part => part.findings),
    ...checkAftercare(record, aftercare, devices, planning, options.contact),
    ...(radiation.substantial && !skinReview
      ? [finding('clinical.skin-review-missing', 'aftercare', {})]
      : []),
  ];
  return {
    devices,
    tally,
    aftercare,
    calculations: [...parts.flatMap(part => part.calculations), ...intervals(record, devices)],
    notChecked: sizes.notChecked,
    allergies: foundAllergies(record),
    findings: applyAcknowledgements(findings, record),
  };
}

/** What the labels of the case say together, now that it is known what stays inside. */
function labelFindings(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails>,
  tally: DeviceTally,
  expiresSoonDays: number | undefined,
): Finding[] {
  const labelled = [...devices.values()].map(device => {
    const inside = rowsOf(tally, device.key).some(entry => entry.part === undefined && isInside(entry.state));
    const { di, lot, serial, expires, distinct } = device;
    return {
      key: device.key,
      path: `devices.${device.key}`,
      ...(di !== undefined && { di }),
      ...(lot !== undefined && { lot }),
      ...(serial !== undefined && { serial }),
      // What an earlier case put in has had its expiry judged there.
      ...(expires !== undefined && !device.carried && { expires }),
      ...(distinct !== undefined && { distinct }),
      implant: device.implant,
      // On the skin, as a suture is: nobody asks for its identifier.
      leftInSitu: inside && !device.outside,
      used: device.entry.use !== 'unopened',
    };
  });
  return labelCaseFindings(labelled, {
    date: record.case.date,
    ...(expiresSoonDays !== undefined && { expiresSoonDays }),
  });
}
