import type { DeviceDetails, DeviceTally } from '../../devices/types.js';
import type { Finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { writtenTexts } from '../told/beside.js';
import { checkToldCounts } from '../told/counts.js';
import { checkToldDevices } from '../told/devices.js';
import { checkToldFigures } from '../told/figures.js';
import { checkMentions } from '../told/mentions.js';
import { checkOthers } from '../told/others.js';
import { checkTopics } from '../told/topics.js';
import { checkVitals } from '../told/vitals.js';
import { checkCare } from './care.js';
import { checkClosure } from './closure.js';
import { checkContrast } from './contrast.js';
import { checkCourse } from './course.js';
import { checkCourseWords } from './course-words.js';
import { checkDeath } from './death.js';
import { checkDevices } from './devices.js';
import { checkEntered } from './entered.js';
import { checkFigures } from './figures.js';
import { checkGrades } from './grades.js';
import { checkKind } from './kind.js';
import { otherText } from './kind-organ.js';
import { checkLeft } from './left.js';
import { checkLevels } from './levels.js';
import { checkLesionLevels } from './levels-lesion.js';
import { checkMeasures } from './measures.js';
import { checkPerson } from './person.js';
import { checkPlan } from './plan.js';
import { checkRetained } from './retained.js';
import { checkSeverity } from './severity.js';
import { checkSides } from './side/check.js';
import { checkSpecimens } from './specimens.js';
import { checkStatus } from './status.js';
import { checkComplicationsTold } from './told.js';
import { checkValues } from './values.js';
import { checkWays } from './ways.js';

/** Holds places of a record that tell of the same thing against each other. */
export function checkAgreement(
  record: CaseRecord,
  devices: ReadonlyMap<string, DeviceDetails>,
  tally: DeviceTally,
): Finding[] {
  const written = writtenTexts(record);
  return once([
    ...checkSides(record),
    ...checkWays(record, devices),
    ...checkLeft(record),
    ...checkDevices(record, devices, tally),
    ...checkCourse(record),
    ...checkCourseWords(record),
    ...checkDeath(record),
    ...checkStatus(record),
    ...checkSeverity(record),
    ...checkPlan(record),
    ...checkComplicationsTold(record),
    ...checkRetained(record, tally),
    ...checkMeasures(record),
    ...checkFigures(record),
    ...checkGrades(record),
    ...checkContrast(record),
    ...checkSpecimens(record),
    ...checkClosure(record, devices),
    ...checkCare(record),
    ...checkValues(record),
    ...checkKind(record, devices, tally),
    ...otherText(record),
    ...checkLevels(record),
    ...checkLesionLevels(record),
    ...checkPerson(record),
    ...checkEntered(record),
    ...checkToldDevices(record, devices),
    ...checkToldFigures(record, devices),
    ...checkToldCounts(record, devices),
    ...checkMentions(record, written),
    ...checkTopics(record, written),
    ...checkVitals(record, written),
    ...checkOthers(record, written),
  ]);
}

/** A text that contradicts a field is told of once, whichever rule saw it first. */
function once(found: readonly Finding[]): Finding[] {
  const said = new Set<string>();
  return found.filter(({ code, path }) => {
    if (code !== 'clinical.measurement-differs') return true;
    const seen = said.has(path);
    said.add(path);
    return !seen;
  });
}
