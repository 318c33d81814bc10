import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { Decimal } from '../../record/decimal.js';
import { entriesOf } from '../../record/entries.js';
import { convert, type Quantity } from '../../record/quantity.js';
import type { CaseRecord, Target } from '../../record/schema/record.js';
import { analyteNamed } from '../../trade/analytes.js';
import { injectionsOf } from './contrast.js';

/** Times, doses and measured values that cannot both be right. */
export function checkMeasures(record: CaseRecord): Finding[] {
  return [
    ...fluoroscopy(record),
    ...radiationUnsaid(record),
    ...haemoglobin(record),
    ...measurements(record),
    ...gradients(record),
  ];
}

function fluoroscopy(record: CaseRecord): Finding[] {
  const { radiation, case: head } = record;
  if (radiation === undefined || radiation === 'none' || !radiation.fluoroscopyTime) return [];
  const [from, to] = [head.started?.epoch, head.ended?.epoch];
  const minutes = convert(radiation.fluoroscopyTime, 'min');
  if (from === undefined || to === undefined || to <= from || !minutes) return [];
  const lasted = (to - from) / 60_000;
  if (minutes.lte(lasted)) return [];
  return [
    finding('clinical.fluoroscopy-longer', 'radiation.fluoroscopyTime', {
      time: { quantity: radiation.fluoroscopyTime },
      lasted: { quantity: { value: String(Math.round(lasted)), unit: 'min', code: 'min' } },
    }),
  ];
}

const rays = new Set(['fluoroscopy', 'computed tomography']);

function radiationUnsaid(record: CaseRecord): Finding[] {
  if (record.case.status === 'not done') return [];
  if (record.radiation !== undefined && record.radiation !== 'none') return [];
  const event = (record.events ?? []).findIndex(
    ({ guidance }) => guidance !== undefined && rays.has(guidance),
  );
  const access = (record.access ?? []).findIndex(
    ({ guidance }) => guidance?.some(one => rays.has(one)) ?? false,
  );
  const [injection] = injectionsOf(record).filter(({ event: { image } }) => image !== undefined);
  const place = event >= 0 ? `events[${event}]` : access >= 0 ? `access[${access}]` : injection?.path;
  return place === undefined ? [] : [finding('clinical.radiation-unsaid', 'radiation', { place })];
}

const bled =
  /\b(?:bleed\w*|ha?emorrhag\w*|ha?ematoma\w*|ha?emothorax|ha?emoperitoneum|pseudo-?aneurysm|extravasation|transfus\w+|ruptur\w+|perforat\w+)\b/i;
const WEEK = 7 * 24 * 3_600_000;

/** A fall that counts as major bleeding wherever the blood went. */
function haemoglobin(record: CaseRecord): Finding[] {
  const complications = entriesOf(record.complications);
  if (
    complications.some(
      ({ what, action, treatment }) =>
        bled.test(`${what.text} ${action ?? ''}`) || treatment === 'transfusion',
    )
  )
    return [];
  const latest = (record.before?.labs ?? [])
    .filter(({ what }) => analyteNamed(what.text)?.name === 'haemoglobin')
    .sort(
      (a, b) => (b.at.moment?.epoch ?? Date.parse(b.at.iso)) - (a.at.moment?.epoch ?? Date.parse(a.at.iso)),
    )[0];
  const first = latest && convertHb(latest.value);
  if (!latest || !first) return [];
  const end = record.case.ended?.epoch ?? Date.parse(record.case.date);
  const fallen = (record.after?.labs ?? []).flatMap(({ what, value, at }, i) => {
    const now = analyteNamed(what.text)?.name === 'haemoglobin' ? convertHb(value) : undefined;
    const time = at.moment?.epoch ?? Date.parse(at.iso);
    return now && time - end < WEEK && first.minus(now).gte(20) ? [{ value, i, fall: first.minus(now) }] : [];
  });
  const [worst] = fallen;
  if (!worst) return [];
  return [
    finding('clinical.haemoglobin-fall', `after.labs[${worst.i}].value`, {
      from: { quantity: latest.value },
      to: { quantity: worst.value },
      fall: { number: worst.fall.toDecimalPlaces(0).toString() },
    }),
  ];
}

/** In g/L; a molar value is of the monomer, 1 mmol/L = 16.114 g/L. */
function convertHb(value: Quantity): Decimal | undefined {
  return convert(value, 'g/L') ?? convert(value, 'mmol/L')?.times('16.114');
}

const after = /\bafter(?:wards)?\b|\bpost\b|\bresidual\b|\bfinal\b|\bend\b/i;
const before = /\bbefore\b|\bpre\b|\binitial\b|\bbaseline\b/i;

/** A measurement of the outcome that the target has too. */
function measurements(record: CaseRecord): Finding[] {
  const targets = Object.entries(record.targets ?? {});
  return (record.outcome?.measurements ?? []).flatMap((one, i) => {
    const [key, target] =
      targets.find(([name]) => name === one.target) ?? (targets.length === 1 ? (targets[0] ?? []) : []);
    if (key === undefined || !target || after.test(one.what.text) === before.test(one.what.text)) return [];
    const field = fieldOf(one.what.text, after.test(one.what.text));
    const said = field && target[field];
    if (!said || said.unit !== (one.unit ?? said.unit)) return [];
    return new Decimal(said.value).eq(one.value)
      ? []
      : [
          finding('clinical.measurement-differs', `outcome.measurements[${i}].value`, {
            what: one.what.text,
            value: { quantity: { value: one.value, unit: said.unit, code: said.code } },
            other: { quantity: said },
            place: `targets.${key}.${field}`,
          }),
        ];
  });
}

type Field =
  | 'pressureBefore'
  | 'pressureAfter'
  | 'narrowingBefore'
  | 'narrowingAfter'
  | 'lumenBefore'
  | 'lumenAfter';

function fieldOf(what: string, later: boolean): Field | undefined {
  // A patient has many pressures; only a gradient, or the pressure in what was treated, is that of the target.
  if (/\bgradient\b/i.test(what)) return later ? 'pressureAfter' : 'pressureBefore';
  if (/\b(?:stenosis|narrowing)\b/i.test(what)) return later ? 'narrowingAfter' : 'narrowingBefore';
  return /\blumen\b/i.test(what) ? (later ? 'lumenAfter' : 'lumenBefore') : undefined;
}

const gradient = /\bgradient\b|\bportal hypertension\b|\bportosystemic\b/i;

/** A gradient that rose where the target was treated with success. */
function gradients(record: CaseRecord): Finding[] {
  return Object.entries(record.targets ?? {}).flatMap(([key, target]) => {
    const { pressureBefore: was, pressureAfter: is } = target;
    if (!was || !is || target.success !== 'successful' || !isGradient(record, key, target)) return [];
    const [a, b] = [convert(was, 'mm[Hg]'), convert(is, 'mm[Hg]')];
    if (!a || !b || b.lte(a)) return [];
    return [
      finding('clinical.measurement-differs', `targets.${key}.pressureAfter`, {
        what: message('measure.gradient'),
        value: { quantity: is },
        other: { quantity: was },
        place: `targets.${key}.pressureBefore`,
      }),
    ];
  });
}

function isGradient(record: CaseRecord, key: string, { what, lesion, note }: Target): boolean {
  const measured = (record.outcome?.measurements ?? []).filter(
    one => one.target === undefined || one.target === key,
  );
  const texts = [
    what.text,
    lesion?.text ?? '',
    note ?? '',
    record.case.kind,
    ...measured.map(one => one.what.text),
  ];
  return texts.some(text => gradient.test(text));
}
