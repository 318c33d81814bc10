import type { Assessment } from '../clinical/assessment.js';
import type { CaseRecord } from '../record/schema/record.js';
import { componentsOf } from './components.js';
import { mappingContext } from './context.js';
import { addEarlier, withdrawAll } from './corrections/earlier.js';
import type { Narrative } from './narrative.js';
import type { MappingOptions } from './options.js';
import { addBefore } from './resources/before.js';
import { addBodySites } from './resources/body-sites.js';
import { addCalculations } from './resources/calculations.js';
import { addComponents } from './resources/components.js';
import { addComposition } from './resources/composition.js';
import { addConditions } from './resources/conditions.js';
import { addDevices } from './resources/device.js';
import { addDeviceUses } from './resources/device-use.js';
import { addDiagnosticReport } from './resources/diagnostic-report.js';
import { addDocumentReference } from './resources/document-reference.js';
import { addDose } from './resources/dose.js';
import { addLabs } from './resources/labs.js';
import { addMedications } from './resources/medications.js';
import { addPatient } from './resources/patient.js';
import { addPeople } from './resources/people.js';
import { addPlace } from './resources/place.js';
import { addAftercare, addPlanned } from './resources/plan.js';
import { addProcedure } from './resources/procedure.js';
import { addProvenance, addSoftware } from './resources/provenance.js';
import { addEventMeasures, addResults } from './resources/results.js';
import { addSpecimens } from './resources/specimens.js';
import { addTargets } from './resources/targets.js';
import { addVitalSeries } from './resources/vital-series.js';
import { addVitals } from './resources/vitals.js';
import type { ResourceSet } from './set.js';

/**
 * Maps a case to FHIR R4 resources. Pure: the same record, assessment, narrative and options give the same set.
 * Resources refer to each other by `urn:uuid:` addresses; `documentBundle` and `submissionBundle` make bundles of it.
 * @param earlier sets of the earlier versions of the report, oldest first: what they sent is retired
 */
export function mapCase(
  record: CaseRecord,
  assessment: Assessment,
  narrative: Narrative,
  options: MappingOptions,
  earlier: readonly ResourceSet[] = [],
): ResourceSet {
  const context = mappingContext(record, assessment, narrative, options, earlier);
  const breakdown = componentsOf(context);
  addPatient(context);
  addPeople(context);
  addPlace(context);
  addProcedure(context, breakdown);
  addComponents(context, breakdown);
  addBodySites(context);
  addConditions(context);
  addPlanned(context);
  addBefore(context);
  addVitals(context);
  addVitalSeries(context);
  addLabs(context);
  addMedications(context);
  addDevices(context);
  addDeviceUses(context, breakdown);
  addTargets(context);
  addEventMeasures(context, breakdown);
  addResults(context);
  addDose(context);
  addSpecimens(context);
  addAftercare(context);
  addCalculations(context);
  // The document lists what was mapped before it; the account of origin comes last and names them all.
  addComposition(context);
  addDiagnosticReport(context);
  addDocumentReference(context);
  addSoftware(context);
  if (record.report.status === 'withdrawn') withdrawAll(context);
  addEarlier(context);
  addProvenance(context);
  const { version } = context;
  return {
    entries: context.entries,
    document: context.identifier(`document/v${version.number}`),
    timestamp: context.times.timestamp,
    version: version.number,
    revision: version.follows.length > 0,
  };
}
