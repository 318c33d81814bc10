import { loadDefinitions } from '../../conformance/definitions/load.js';
import { validateFiles } from '../../conformance/files.js';
import { toFinding, toOperationOutcome } from '../../conformance/outcome.js';
import { createValidator } from '../../conformance/validator.js';
import { type ExitCode, exitCodes, exitFor } from '../exit.js';
import { countLine, findingLines, jsonText, type Output } from '../output.js';

interface ValidateFlags {
  readonly profile?: readonly string[];
  readonly json?: boolean;
}

/** Checks FHIR JSON files; text that is no FHIR resource at all gives 2. */
export async function validate(
  files: readonly string[],
  flags: ValidateFlags,
  output: Output,
): Promise<ExitCode> {
  const validator = createValidator(loadDefinitions());
  const outcomes: object[] = [];
  let worst: ExitCode = exitCodes.ok;
  for await (const { file, record, result } of validateFiles(
    validator,
    files,
    flags.profile ? { profiles: flags.profile } : {},
  )) {
    const findings = result.issues.map(toFinding);
    const code = findings.some(f => f.severity === 'fatal') ? exitCodes.usage : exitFor(findings);
    if (code > worst) worst = code;
    if (flags.json) {
      outcomes.push(toOperationOutcome(result));
      continue;
    }
    const name = record === undefined ? file : `${file}#${record}`;
    output.out(findingLines(findings, name, output.color));
    output.out(
      `${name}: ${countLine(findings)}\n  checked against: ${result.evaluated.profiles.join(', ') || 'nothing'}\n`,
    );
  }
  if (flags.json) output.out(jsonText(outcomes.length === 1 ? outcomes[0] : outcomes));
  return worst;
}
