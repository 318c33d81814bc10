import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { analyteNamed } from '../../trade/analytes.js';
import { drugKey, drugsIn } from '../../trade/drugs/table.js';
import { lastBefore } from '../labs/labs.js';
import { type Range, refused } from '../plausible.js';
import { numberOf, upTo } from '../told/figure.js';
import { pressures } from '../told/vitals.js';
import { isMedium } from './contrast.js';

/** Measured values, doses and units of blood that two places tell otherwise. Common practice, no source. */
export function checkValues(record: CaseRecord): Finding[] {
  return [
    ...pressureOnLeaving(record),
    ...wedged(record),
    ...clottingTold(record),
    ...unitsOfBlood(record),
    ...agents(record),
    ...creatinine(record),
    ...cultures(record),
  ];
}

const told = (path: string, text: string, value: Quantity, other: Quantity, place: string): Finding =>
  finding('clinical.measurement-differs', path, {
    what: message('measure.told', { text }),
    value: { quantity: value },
    other: { quantity: other },
    place,
  });

const mmHg = (value: number): Quantity => ({ value: String(value), unit: 'mmHg', code: 'mm[Hg]' });

/** mmHg between two systolic values of the same minutes that call for a word. */
const APART = 35;
const MINUTES = 20;

/** The blood pressure on leaving against the last one measured, where that was at the end of the case. */
function pressureOnLeaving(record: CaseRecord): Finding[] {
  const text = record.outcome?.condition ?? '';
  const [[phrase, systolic] = []] = text.matchAll(pressures);
  const last = (record.vitals ?? []).findLast(({ value }) => 'systolic' in value);
  const end = record.case.ended?.epoch;
  if (phrase === undefined || !last || !('systolic' in last.value) || end === undefined) return [];
  const near = Math.abs(end - last.at.epoch) <= MINUTES * 60_000;
  const known = Number(last.value.systolic.value);
  return near && Math.abs(known - Number(systolic)) >= APART
    ? [
        told(
          'outcome.condition',
          phrase,
          mmHg(Number(systolic)),
          mmHg(known),
          `vitals[${(record.vitals ?? []).indexOf(last)}]`,
        ),
      ]
    : [];
}

/** The pressure of a wedged or occluded vein is never under the free one. */
function wedged(record: CaseRecord): Finding[] {
  const measured = (record.events ?? []).flatMap((event, i) =>
    event.do === 'measure' && event.pressure
      ? [{ text: event.result ?? '', pressure: event.pressure, path: `events[${i}].pressure` }]
      : [],
  );
  const free = measured.filter(({ text }) => /\bfree\b/i.test(text) && !/\bwedged?\b/i.test(text));
  const wedge = measured.filter(
    ({ text }) => /\b(?:wedged?|occluded)\b/i.test(text) && !/\bfree\b/i.test(text),
  );
  const [one, other] = [free[0], wedge[0]];
  if (free.length !== 1 || wedge.length !== 1 || !one || !other) return [];
  const [low, high] = [convert(one.pressure, 'mm[Hg]'), convert(other.pressure, 'mm[Hg]')];
  return low && high?.lt(low) ? [told(other.path, other.text, other.pressure, one.pressure, one.path)] : [];
}

const clotting = /\b(INR|platelets?)(?: count)?(?: of| is|:)? (\d+(?:\.\d+)?)/gi;
const notNow =
  /\b(?:was|were|earlier|before|after|initial\w*|on admission|yesterday|last|fell|fallen|rose|risen|corrected|from|to|ago|outside|target|goal|aim\w*|(?:19|20)\d\d)\b/i;

/** INR and platelets in the reason for the case against the last ones before it: far apart, one of them is wrong or old. */
function clottingTold(record: CaseRecord): Finding[] {
  return record.indication.text.split(/[.;]\s|;/).flatMap(clause => {
    if (notNow.test(clause)) return [];
    return [...clause.matchAll(clotting)].flatMap(([phrase, name = '', value = '']) => {
      const last = lastBefore(record, /^inr/i.test(name) ? 'INR' : 'platelets');
      const known = last && Number(last.quantity.value);
      // Platelets are told in thousands by everybody; a unit of the list that is another one is left alone.
      if (!last || !known || !(Number(value) > 0)) return [];
      const ratio = Math.max(known / Number(value), Number(value) / known);
      return ratio >= 1.5 && ratio < 10
        ? [told('indication.text', phrase, { ...last.quantity, value }, last.quantity, last.path)]
        : [];
    });
  });
}

const blood = new RegExp(
  `\\b(\\d{1,2}|${upTo(12)}) (?:units?|bags?|packs?) (?:of )?(red cells?|packed cells?|plasma|platelets|blood)\\b`,
  'gi',
);
const bloodElsewhere =
  /\b(?:before|earlier|ward|emergency|held with|ordered|ready|reserved?|cross-?match\w*|stand ?by|available|if|more|another|further|after|since|last)\b/i;

/** Units of blood that the outcome tells against those among the drugs. */
function unitsOfBlood(record: CaseRecord): Finding[] {
  const given = entriesOf(record.drugs).map(({ drug, dose }, i) => ({
    text: drug.text.toLowerCase(),
    units: Number(dose.value),
    path: `drugs[${i}].dose`,
  }));
  const texts = [
    { path: 'outcome.text', text: record.outcome?.text ?? '' },
    { path: 'conclusion', text: record.conclusion ?? '' },
  ];
  return texts.flatMap(({ path, text }) =>
    text
      .split(/[.;]\s|;/)
      .filter(clause => !bloodElsewhere.test(clause))
      .flatMap(clause =>
        [...clause.matchAll(blood)].flatMap(([phrase, number = '', what = '']) => {
          const noun = what.toLowerCase().replace(/s$/, '').replace('packed', 'red');
          const mine = given.filter(one => one.text.replace('packed', 'red').includes(noun));
          const sum = mine.reduce((all, { units }) => all + units, 0);
          const count = numberOf(number);
          const [first] = mine;
          if (!first || sum === count || mine.some(({ units }) => !(units > 0) || units > 12)) return [];
          const quantity = (value: number): Quantity => ({ value: String(value), unit: '', code: '1' });
          return [told(path, phrase, quantity(count), quantity(sum), first.path)];
        }),
      ),
  );
}

/** A drug that events inject by volume, and that the list of drugs gives by volume: not less than what went in. */
function agents(record: CaseRecord): Finding[] {
  return entriesOf(record.drugs).flatMap(({ drug, dose }, i) => {
    const name = drugsIn(drug.text)[0]?.name;
    if (name === undefined || isMedium(drug.text)) return [];
    const same = entriesOf(record.drugs).filter(one => drugKey(one.drug.text) === drugKey(drug.text));
    if (same[0]?.drug !== drug) return [];
    const listed = same.map(one => convert(one.dose, 'mL'));
    const injected = (record.events ?? []).flatMap((event, j) =>
      event.do === 'inject' &&
      event.agent !== undefined &&
      drugsIn(event.agent)[0]?.name === name &&
      event.volume
        ? [{ volume: convert(event.volume, 'mL'), path: `events[${j}].volume` }]
        : [],
    );
    const [first] = injected;
    if (!first || listed.includes(undefined)) return [];
    const total = listed.reduce<Decimal>((sum, one) => (one ? sum.plus(one) : sum), new Decimal(0));
    const sum = injected.reduce<Decimal>(
      (all, { volume }) => (volume ? all.plus(volume) : all),
      new Decimal(0),
    );
    const mL = (value: Decimal): Quantity => ({ value: value.toString(), unit: 'mL', code: 'mL' });
    return sum.gt(total.times('1.5'))
      ? [told(first.path, drug.text, mL(sum), dose.code === 'mL' ? mL(total) : dose, `drugs[${i}].dose`)]
      : [];
  });
}

/** Above this creatinine belongs to failing kidneys, of which a record then tells. */
const CREATININE: Range = { unit: 'mg/dL', least: '0.1', most: '8' };
const failing =
  /\b(?:\w*dialy\w+|(?:renal|kidney) (?:failure|impairment|insufficiency|disease|injury)|CKD|AKI|ESRD|ESKD|ura?emi\w+|hydronephrosis|obstruct\w*|transplant\w*|anuri\w*|oliguri\w*|nephr(?:ostomy|itis|opathy)|ureter\w*|urosepsis|rhabdomyolysis|f(?:istula|av)|shunt)\b/i;

function creatinine(record: CaseRecord): Finding[] {
  const story = JSON.stringify([
    record.case.kind,
    record.case.procedure,
    record.indication,
    record.before,
    record.targets,
  ]);
  if (failing.test(story)) return [];
  return (record.before?.labs ?? []).flatMap(({ what, value }, i) => {
    if (analyteNamed(what.text)?.name !== 'creatinine' || /urine/i.test(what.text)) return [];
    const amount = convert(value, 'mg/dL') ?? convert(value, 'umol/L')?.div('88.4');
    return amount?.gt(CREATININE.most) && !value.comparator
      ? [refused(what.text, value, [CREATININE], `before.labs[${i}].value`)]
      : [];
  });
}

/** Nothing grows from formalin. */
function cultures(record: CaseRecord): Finding[] {
  return entriesOf(record.specimens).flatMap(({ sentFor, container }, i) =>
    /\b(?:cultures?|microbiology|bacteriology|gram stain)\b/i.test(sentFor ?? '') &&
    !/\b(?:histology|cytology|pathology)\b/i.test(sentFor ?? '') &&
    /\b(?:formalin|formaldehyde|alcohol|ethanol)\b/i.test(container ?? '') &&
    !/\b(?:and|sterile|saline|dry)\b/i.test(container ?? '')
      ? [
          finding('clinical.specimen-differs', `specimens[${i}].container`, {
            specimens: container ?? '',
            events: sentFor ?? '',
            place: `specimens[${i}].sentFor`,
          }),
        ]
      : [],
  );
}
