import type { Tree } from '../../record/read.js';
import type { Contribution, GivenValue, Typed } from '../contribution.js';
import { inline } from '../write/render.js';

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

const flow = (value: Typed): string => inline(value as Tree, 'braces');
