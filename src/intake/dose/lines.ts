import type { Contribution, GivenValue, Typed } from '../contribution.js';

/**
 * The lines of a case file that dose reports give, to be pasted: `radiation:` with what they state, and what they only
 * propose as comments. Empty where they give nothing.
 */
export function doseLines({ values }: Contribution): string[] {
  const radiation = values.filter(({ path, as }) => path[0] === 'radiation' && as === 'set');
  const lines = radiation.map(value => `  ${lineOf(value)}`);
  const proposed = values
    .filter(({ as }) => as === 'propose' || as === 'propose-entry')
    .map(value =>
      value.as === 'propose' ? `  # ${lineOf(value)}` : `# ${value.path.join('.')}: [${flow(value.value)}]`,
    );
  return [...(lines.length > 0 ? ['radiation:', ...lines] : []), ...proposed];
}

function lineOf({ path, value, said }: GivenValue): string {
  return `${path.at(-1)}: ${flow(value)}${said === undefined ? '' : `  # ${said}`}`;
}

/** In flow style; text that YAML could read as something else is quoted as in JSON, which YAML reads the same. */
function flow(value: Typed): string {
  if (typeof value === 'string')
    return /^\d[\d.]*( [A-Za-zµ][A-Za-z0-9µ·]*)?$/.test(value) ? value : JSON.stringify(value);
  if (typeof value === 'boolean') return `${value}`;
  if (Array.isArray(value)) return `[${value.map((one: Typed) => flow(one)).join(', ')}]`;
  return `{ ${Object.entries(value)
    .map(([name, one]) => `${name}: ${flow(one as Typed)}`)
    .join(', ')} }`;
}
