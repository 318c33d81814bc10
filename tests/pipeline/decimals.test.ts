import fc from 'fast-check';
import { expect, it } from 'vitest';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { prepareCase } from '../../src/pipeline/prepare.js';
import { unitNamed } from '../../src/record/units.js';
import { fullCase } from '../fhir/full-case.js';
import { decimalOf } from '../support/decimals.js';
import { fullSite, testTools } from '../support/examples.js';

/** An exponent as JavaScript and the decimal library write one; identifiers of the resources may look like one without a sign. */
const EXPONENT = /(?<![\w-])\d+(?:\.\d+)?[eE][+-]\d+(?![\w-])/g;

/** The full case with other digits in each of its quantities; `amount` is asked for each. */
function withAmounts(value: unknown, amount: (unit: string) => string): unknown {
  if (typeof value === 'string') {
    const parts = /^\d+(?:\.\d+)? (\S.*)$/.exec(value);
    const unit = parts?.[1] === undefined ? undefined : unitNamed(parts[1]);
    return unit ? `${amount(unit.code)} ${parts?.[1]}` : value;
  }
  if (Array.isArray(value)) return value.map(item => withAmounts(item, amount));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, field]) => [name, withAmounts(field, amount)]));
}

/** Everything that a case with these amounts is turned into, as text. */
function made(amount: (unit: string) => string): { texts: string[]; resources: string } {
  const { record, assessment, findings } = checkCase(JSON.stringify(withAmounts(fullCase, amount)), fullSite);
  if (!record || !assessment) throw new Error(findings.map(f => `${f.path}: ${messageOf(f)}`).join('\n'));
  const { submission, document, reports, timeline, ...rest } = prepareCase(
    record,
    assessment,
    fullSite,
    testTools(),
  );
  const printed = Object.values(reports).flatMap(report => [report.html, report.text]);
  return {
    texts: [submission, document, timeline, ...printed, JSON.stringify([assessment.findings, rest.findings])],
    resources: submission,
  };
}

const exponents = (texts: readonly string[]) => texts.flatMap(text => text.match(EXPONENT) ?? []);

it.each(['0.0000001', '0.000000000001', '1000000000000', '5.0'])(
  'a case with %s of everything is reported and mapped, with those digits and no exponent',
  digits => {
    const { texts, resources } = made(() => digits);
    expect(exponents(texts)).toEqual([]);
    expect(resources.split(`"value": ${digits}`).length).toBeGreaterThan(20);
  },
);

it('amounts of any magnitude, mixed, never give an exponent', { timeout: 60_000 }, () => {
  fc.assert(
    fc.property(fc.array(decimalOf(-12, 12), { minLength: 7, maxLength: 13 }), amounts => {
      let next = 0;
      const { texts } = made(() => amounts[next++ % amounts.length] ?? '1');
      expect(exponents(texts)).toEqual([]);
    }),
    { numRuns: 5, endOnFailure: true },
  );
});
