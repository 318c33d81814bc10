/**
 * Asks the reference implementation about every example as it is sent in each release of FHIR, in core and in full.
 * Needs what the agreement run needs; see docs/agreement.md.
 */
import {
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
} from '../../../src/delivery/answer/exact-json.js';
import { FHIR_VERSIONS } from '../../../src/delivery/destination/destination.js';
import { submissionFor } from '../../../src/pipeline/in-version.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { destination } from '../../delivery/samples.js';
import { exampleFiles, fullSite, preparedExample } from '../../support/examples.js';
import { isError } from '../oracles/oracle.js';
import { missing, referenceOracle } from '../oracles/reference.js';

const why = missing();
if (why !== undefined) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}

const folders = [new URL('../../../profiles', import.meta.url).pathname];
const sites = { core: unconfiguredSite, full: fullSite };
let failed = 0;
for (const release of FHIR_VERSIONS) {
  const oracle = referenceOracle(release === '4.0.1' ? folders : [], release);
  for (const [contents, site] of Object.entries(sites)) {
    // Our profiles are of R4: another release gets the resources without claims.
    const at = destination('http://127.0.0.1:1/fhir', {
      fhirVersion: release,
      profiles: release === '4.0.1' ? 'ours' : 'none',
    });
    const questions = exampleFiles.map(file => {
      const { submission } = submissionFor(preparedExample(file, site), at);
      if (submission === undefined) throw new Error(`${file} cannot be written as ${release}`);
      return { id: file, text: submission, profiles: [] };
    });
    const verdicts = await oracle.ask(questions, () => {});
    let resources = 0;
    for (const [i, { id, text }] of questions.entries()) {
      const bundle = parseExact(text);
      const entries = isExactObject(bundle) ? listAt(bundle, 'entry') : [];
      resources += entries.filter(entry => textAt(objectAt(entry, 'resource'), 'resourceType')).length;
      const verdict = verdicts[i];
      if (verdict && verdict.failure === undefined && !isError(verdict)) continue;
      failed += 1;
      const said =
        verdict?.issues.filter(({ severity }) => severity === 'error' || severity === 'fatal') ?? [];
      console.log(`FAIL ${release} ${contents} ${id}: ${verdict?.failure ?? ''}`);
      for (const { path, message } of said.slice(0, 10)) console.log(`  ${path} ${message}`);
    }
    console.log(`FHIR ${release}, ${contents}: ${questions.length} submissions, ${resources} resources`);
  }
  oracle.close();
}
console.log(failed === 0 ? 'no errors' : `${failed} submissions with errors`);
process.exitCode = failed === 0 ? 0 : 1;
