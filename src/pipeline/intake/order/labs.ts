import { type ExactObject, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import { labCodes } from '../../../fhir/codes/clinical.js';
import { compareText, type Finding, finding } from '../../../findings/finding.js';
import type { GivenValue } from '../../../intake/contribution.js';
import { readQuantity } from '../../../record/quantity.js';
import { labDimensions } from '../../../record/schema/people.js';
import type { Dimension } from '../../../record/units.js';
import { analyteNamed } from '../../../trade/analytes.js';
import { codings, conceptAt, isVoid, madeAt, quantityTexts } from './resource.js';
import type { Taken } from './taken.js';

const COUNTED = ['final', 'amended', 'corrected'];

/** Name of a row by the LOINC code of a result. */
const byCode: ReadonlyMap<string, string> = new Map(
  Object.entries(labCodes).flatMap(([name, units]) =>
    Object.values(units).map(({ code }): [string, string] => [code, name]),
  ),
);

/** What an observation measured: the row of the table of laboratory values, else nothing. */
function analyteOf(observation: ExactObject): string | undefined {
  const concept = objectAt(observation, 'code');
  const coded = codings(concept);
  const known = coded.flatMap(({ system, code }) =>
    system === 'http://loinc.org' ? (byCode.get(code) ?? []) : [],
  )[0];
  const words = [conceptAt(observation, 'code'), ...coded.map(({ display }) => display)];
  return known ?? words.flatMap(text => (text === undefined ? [] : (analyteNamed(text)?.name ?? [])))[0];
}

/** A quantity in the first of its units that the record reads. */
function readable(observation: ExactObject, dimensions: readonly Dimension[]): string | undefined {
  const texts = quantityTexts(objectAt(observation, 'valueQuantity'));
  return texts.find(text => readQuantity(text, dimensions).ok);
}

/**
 * The newest value of each thing that the tables know. A preliminary one is proposed; what has no quantity that can be read
 * (`<0.5`, a text) is told and not taken.
 */
export function laboratoryValues(observations: readonly ExactObject[]): Taken {
  const newest = new Map<string, { readonly one: ExactObject; readonly at: string }>();
  for (const one of observations) {
    const [what, at] = [analyteOf(one), madeAt(one)];
    const status = textAt(one, 'status') ?? '';
    if (
      isVoid(one) ||
      what === undefined ||
      at === undefined ||
      ![...COUNTED, 'preliminary'].includes(status)
    )
      continue;
    const before = newest.get(what);
    // By what the time says and not by its text: two laboratories may write different offsets.
    if (!before || Date.parse(at) > Date.parse(before.at)) newest.set(what, { one, at });
  }
  const values: GivenValue[] = [];
  const findings: Finding[] = [];
  // Whatever the order of the server: by name.
  for (const [what, { one, at }] of [...newest].sort(([a], [b]) => compareText(a, b))) {
    const value = readable(one, labDimensions);
    if (value === undefined) {
      const why = quantityTexts(objectAt(one, 'valueQuantity'))[0] ?? 'no plain quantity';
      findings.push(finding('intake.not-taken', 'before.labs', { what, count: '1', why }));
    } else {
      const as = COUNTED.includes(textAt(one, 'status') ?? '') ? 'add' : 'propose-entry';
      values.push({ path: ['before', 'labs'], value: { what, value, at }, as, at });
    }
  }
  return { values, findings };
}

/** Weight and height, by their LOINC codes. */
const MEASURES = [
  { code: '29463-7', field: 'weight', dimension: 'mass' },
  { code: '8302-2', field: 'height', dimension: 'length' },
] as const;

/** The newest weight and height. */
export function measurementValues(observations: readonly ExactObject[]): Taken {
  return {
    values: MEASURES.flatMap(({ code, field, dimension }): GivenValue[] => {
      const [newest] = observations
        .flatMap(one => {
          const [at, value] = [madeAt(one), readable(one, [dimension])];
          const fits =
            COUNTED.includes(textAt(one, 'status') ?? '') &&
            codings(objectAt(one, 'code')).some(
              coding => coding.system === 'http://loinc.org' && coding.code === code,
            );
          return fits && at !== undefined && value !== undefined ? [{ at, value }] : [];
        })
        .sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
      return newest ? [{ path: ['patient', field], value: newest.value, as: 'set', at: newest.at }] : [];
    }),
  };
}
