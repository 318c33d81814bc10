import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Fhir } from 'fhir-package';
import { modules } from '../corpus/definitions.js';
import { inProcess, type Oracle, type OracleIssue } from './oracle.js';

/** The validator of the `fhir` package: base R4 only, required bindings and reference targets included. */
export function fhirPackageOracle(): Oracle {
  const fhir = new Fhir();
  const { version } = JSON.parse(readFileSync(join(modules, 'fhir-package/package.json'), 'utf8')) as {
    version: string;
  };
  return inProcess(
    'fhir',
    question => {
      let resource: object;
      try {
        resource = JSON.parse(question.text) as object;
      } catch (failure) {
        return { issues: [{ severity: 'fatal', path: '', message: String(failure) }] };
      }
      const { messages } = fhir.validate(resource, { errorOnUnexpected: true });
      return {
        issues: messages.map(m => ({
          severity: severityOf(m.severity),
          path: m.location ?? '',
          message: m.message ?? '',
        })),
      };
    },
    version,
  );
}

function severityOf(text: string | undefined): OracleIssue['severity'] {
  if (text === 'fatal' || text === 'error') return text;
  return text === 'warning' ? 'warning' : 'information';
}
