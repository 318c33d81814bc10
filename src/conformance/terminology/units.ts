import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);

/** The system address of UCUM. */
export const UCUM = 'http://unitsofmeasure.org';

/** The little of the UCUM library that is used here. */
interface UnitReader {
  validateUnitString(unit: string): { readonly status: string; readonly msg?: readonly string[] };
  convertUnitTo(
    from: string,
    value: number,
    to: string,
  ): { readonly status: string; readonly toVal?: number | null };
}

interface Units {
  getUnitByCode(code: string): { readonly isMetric_: boolean; readonly isBase_: boolean } | null | undefined;
}

interface Tables {
  readonly reader: UnitReader;
  readonly units: Units;
}

const known = new Map<string, string | undefined>();
let loaded: Tables | undefined;

/** What is wrong with a UCUM unit, or nothing. The unit tables are read at the first question. */
export function unitProblem(code: string): string | undefined {
  if (known.has(code)) return known.get(code);
  const problem = check(code);
  if (known.size < 10_000) known.set(code, problem);
  return problem;
}

function check(code: string): string | undefined {
  // Annotations hold no space either (UCUM section 6), but R4's own list of common units has them.
  if (/\s/.test(code.replace(/\{[^{}]*\}/g, ''))) return 'units hold no white space';
  // The whole unit may be an annotation: it stands for 1.
  if (/^\{[ -z|~]*\}$/.test(code)) return undefined;
  const { status, msg } = tables().reader.validateUnitString(code.replace(/ (?=[^{}]*\})/g, '_'));
  if (status === 'valid') return prefixProblem(code);
  return msg?.[0] ?? 'it is not in the UCUM tables';
}

/** The library lets prefixes stand before any unit; UCUM section 7 allows them before metric units only. */
function prefixProblem(code: string): string | undefined {
  const { units } = tables();
  for (const part of code.replace(/\{[^}]*\}/g, '').split(/[./()]/)) {
    const atom = part.replace(/(?<![*^])[+-]?\d+$/, '');
    if (atom === '' || /^\d/.test(atom) || units.getUnitByCode(atom)) continue;
    const metric = [2, 1].some(n => isMetric(units.getUnitByCode(atom.slice(n))));
    if (!metric) return `${atom} has a prefix before a unit that takes none`;
  }
  return undefined;
}

/** The tables mark derived metric units; base units take prefixes too. */
function isMetric(unit: ReturnType<Units['getUnitByCode']>): boolean {
  return unit?.isMetric_ === true || unit?.isBase_ === true;
}

/** `value` of unit `from` in unit `to`, or nothing when they measure different things. */
export function toUnit(value: number, from: string, to: string): number | undefined {
  const found = tables().reader.convertUnitTo(from, value, to);
  return found.status === 'succeeded' && typeof found.toVal === 'number' ? found.toVal : undefined;
}

function tables(): Tables {
  if (!loaded) {
    const library = require('@lhncbc/ucum-lhc') as {
      UcumLhcUtils: { getInstance(): UnitReader };
      UnitTables: { getInstance(): Units };
    };
    loaded = { reader: library.UcumLhcUtils.getInstance(), units: library.UnitTables.getInstance() };
  }
  return loaded;
}
