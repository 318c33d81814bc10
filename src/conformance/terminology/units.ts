import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);

/** The system address of UCUM. */
export const UCUM = 'http://unitsofmeasure.org';

/** The little of the UCUM library that is used here. */
interface UnitReader {
  validateUnitString(unit: string): { readonly status: string; readonly msg?: readonly string[] };
}

const known = new Map<string, string | undefined>();
let reader: UnitReader | undefined;

/** What is wrong with a UCUM unit, or nothing. The unit tables are read at the first question. */
export function unitProblem(code: string): string | undefined {
  if (known.has(code)) return known.get(code);
  const problem = check(code);
  if (known.size < 10_000) known.set(code, problem);
  return problem;
}

function check(code: string): string | undefined {
  if (/\s/.test(code)) return 'units hold no white space';
  // The whole unit may be an annotation: it stands for 1.
  if (/^\{[!-z|~]*\}$/.test(code)) return undefined;
  reader ??= load();
  const { status, msg } = reader.validateUnitString(code);
  if (status === 'valid') return undefined;
  return msg?.[0] ?? 'it is not in the UCUM tables';
}

function load(): UnitReader {
  const library = require('@lhncbc/ucum-lhc') as { UcumLhcUtils: { getInstance(): UnitReader } };
  return library.UcumLhcUtils.getInstance();
}
