import { z } from 'zod';
import { type Message, message } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import {
  type Quantity,
  type Read,
  readConsoleTime,
  readDecimal,
  readQuantity,
  readSize,
  type Size,
} from '../quantity.js';
import {
  isCalendarDate,
  type Moment,
  type ReadTime,
  readMoment,
  readWhen,
  type TimeContext,
  type When,
} from '../time.js';
import type { Dimension } from '../units.js';

/** A concept as text, always, with any number of codes beside it. */
export interface Coded {
  readonly text: string;
  readonly codes: readonly Code[];
}

/** One code of a code system. */
export interface Code {
  readonly system: string;
  readonly code: string;
  readonly display?: string | undefined;
  readonly version?: string | undefined;
}

/** Says which catalogue row a custom issue belongs to; read back in `issues.ts`. */
export interface IssueParams {
  readonly finding:
    | 'record.bad-quantity'
    | 'record.bad-time'
    | 'record.time-skipped'
    | 'record.time-twice'
    | 'record.no-time-zone'
    | 'record.no-date'
    | 'record.control-character';
  readonly why: Message | '';
  /** A right value of this field. */
  readonly example?: string;
  /** Overrides the catalogue's remedy where the field asks for something narrower. */
  readonly remedy?: Message;
}

/** People write numbers bare or quoted; both arrive as text with the digits as written. */
const scalar = z.union([z.string(), z.number()]);

function reading<T>(read: (text: string) => Read<T>, example: string) {
  return scalar
    .transform((input, context): T => {
      const result = read(String(input));
      if (result.ok) return result.value;
      const params: IssueParams = { finding: 'record.bad-quantity', why: result.why, example };
      context.addIssue({ code: 'custom', message: say(result.why), params: { ...params } });
      return z.NEVER;
    })
    .meta({ examples: [example] });
}

/** Control characters and halves of surrogate pairs: no screen shows them, and XML and FHIR strings refuse them. */
export const UNPRINTABLE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is refused
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffe\uffff]|\p{Cs}/u;

const unprintable: IssueParams = { finding: 'record.control-character', why: '' };

/** Any text that is not blank. */
export const text = z
  .string()
  .trim()
  .min(1)
  .refine(value => !UNPRINTABLE.test(value), { params: { ...unprintable } });

/** What a scanner delivers, left as it is: it may hold separators, and end with a blank that counts. */
export const scan = z.string().min(1);

/** A short name that other lines of the record refer to. */
export const key = z.string().regex(/^[A-Za-z][A-Za-z0-9_-]*$/);

/** `true`/`false`, or `yes`/`no` as people write it. */
export const yesNo = z
  .union([z.boolean(), z.enum(['yes', 'no', 'true', 'false'])])
  .transform(v => v === true || v === 'yes' || v === 'true');

/** A whole number from 0. */
export const count = z.union([z.number().int().min(0), z.string().regex(/^\d+$/)]).transform(Number);

/** A bare decimal, digits kept. */
export const decimal = reading(readDecimal, '1.3');

/** A number with a unit of one of the dimensions. */
export function quantity(
  example: string,
  ...dimensions: Dimension[]
): z.ZodPipe<typeof scalar, z.ZodTransform<Quantity, string | number>> {
  return reading((input): Read<Quantity> => readQuantity(input, dimensions), example);
}

/** A blood pressure as it is written, `128/76 mmHg`. */
export interface BloodPressure {
  readonly systolic: Quantity;
  readonly diastolic: Quantity;
}

function readPressures(input: string): Read<BloodPressure> | undefined {
  const [, upper, lower, unit] =
    /^(\d+(?:\.\d+)?)\s*\/\s*(\d+(?:\.\d+)?)\s*(mm ?hg|kPa)$/i.exec(input.trim()) ?? [];
  if (upper === undefined) return undefined;
  const systolic = readQuantity(`${upper} ${unit}`, ['pressure']);
  const diastolic = readQuantity(`${lower} ${unit}`, ['pressure']);
  if (!systolic.ok) return systolic;
  return diastolic.ok
    ? { ok: true, value: { systolic: systolic.value, diastolic: diastolic.value } }
    : diastolic;
}

/** A vital sign or a value of the bedside: an amount with its unit, or a blood pressure of two. */
export const vitalValue = reading(
  (input): Read<Quantity | BloodPressure> =>
    readPressures(input) ??
    readQuantity(input, [
      'pressure',
      'frequency',
      'ratio',
      'temperature',
      'duration',
      'count',
      'molarConcentration',
      'massConcentration',
      'flow',
    ]),
  '128/76 mmHg',
);

/** A time span, or one as consoles show it: minutes and seconds `5:30`, hours, minutes and seconds `1:05:30`. */
export const consoleTime: z.ZodPipe<typeof scalar, z.ZodTransform<Quantity, string | number>> = reading(
  readConsoleTime,
  '5.5 min',
);

/** A device size: diameter, diameter x length, or a span of diameters. */
export const size: z.ZodPipe<typeof scalar, z.ZodTransform<Size, string | number>> = reading(
  readSize,
  '7 Fr x 26 cm',
);

/** A code, written out. */
export const code = z.strictObject({
  system: text.describe('Address of the code system, such as http://snomed.info/sct'),
  code: text,
  display: text.optional(),
  version: text.optional(),
});

/** Text, or text with codes. */
export const coded = z
  .union([text, z.strictObject({ text: text.describe('What people read'), codes: z.array(code).optional() })])
  .transform(
    (input): Coded =>
      typeof input === 'string' ? { text: input, codes: [] } : { text: input.text, codes: input.codes ?? [] },
  );

/** A business identifier. The system is an absolute address. */
export const identifier = z.strictObject({
  system: z
    .string()
    .regex(/^(urn:|https?:\/\/)\S+$/)
    .describe('Address of the numbering system: urn:oid:… or https://…'),
  value: z.union([text, z.number().transform(String)]),
});
export type Identifier = z.output<typeof identifier>;

const noSuchDay: IssueParams = {
  finding: 'record.bad-time',
  why: message('reading.noRealDay'),
  remedy: message('answer.realDay'),
};

/** A day of the calendar, YYYY-MM-DD. */
export const calendarDay = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .refine(isCalendarDate, { params: { ...noSuchDay } });

/** `none` said, or a list with at least one entry; an absent field means that nothing was recorded. */
export function noneOr<T extends z.ZodType>(item: T): z.ZodUnion<[z.ZodLiteral<'none'>, z.ZodArray<T>]> {
  return z.union([z.literal('none'), z.array(item).min(1)]);
}

/** When something is due: a date, or a span counted from the case. */
export type Term =
  | { readonly text: string; readonly span: Quantity; readonly when?: never }
  | { readonly text: string; readonly when: When; readonly span?: never };

/** The time fields of one record: they are read against its date, start and zone. */
export interface TimeFields {
  /** A point in time. */
  readonly moment: z.ZodPipe<z.ZodString, z.ZodTransform<Moment, string>>;
  /** A date of any precision, or a moment. */
  readonly when: z.ZodPipe<
    z.ZodPipe<typeof scalar, z.ZodTransform<string, string | number>>,
    z.ZodTransform<When, string>
  >;
  /** A date, or a time span counted from the case. */
  readonly term: z.ZodPipe<
    z.ZodPipe<typeof scalar, z.ZodTransform<string, string | number>>,
    z.ZodTransform<Term, string>
  >;
}

const codesOf = {
  bad: 'record.bad-time',
  'no-date': 'record.no-date',
  gap: 'record.time-skipped',
  twice: 'record.time-twice',
  'no-zone': 'record.no-time-zone',
} as const satisfies Record<string, IssueParams['finding']>;

const AS_DATE = message('answer.asDate');
const AS_TERM = message('answer.asTerm');

/** @param moved is told of each bare time that was put on the day after the case's date, or on the one before */
export function timeFields(context: TimeContext, moved: (moment: Moment, days: number) => void): TimeFields {
  const take = <T>(result: ReadTime<T>, issues: z.core.$RefinementCtx<unknown>, remedy?: Message): T => {
    if (result.ok) return result.value;
    const params: IssueParams = {
      finding: codesOf[result.code],
      why: result.why,
      ...(result.code === 'bad' && remedy !== undefined && { remedy }),
    };
    issues.addIssue({ code: 'custom', message: say(result.why), params: { ...params } });
    return z.NEVER;
  };
  return {
    moment: z
      .string()
      .transform((input, issues) => {
        const result = readMoment(input, context);
        if (result.ok && result.moved !== undefined) moved(result.value, result.moved);
        return take(result, issues);
      })
      .meta({ examples: ['09:04'] }),
    when: scalar
      .transform(String)
      .transform((input, issues) => take(readWhen(input, context), issues, AS_DATE))
      .meta({ examples: ['2024-03-14'] }),
    term: scalar
      .transform(String)
      .transform((input, issues): Term => {
        const span = readQuantity(input, ['duration']);
        if (span.ok) return { text: input.trim(), span: span.value };
        const when = readWhen(input, context);
        if (when.ok) return { text: input.trim(), when: when.value };
        const why = message('reading.noTerm', { text: input });
        return take<Term>({ ok: false, code: 'bad', why }, issues, AS_TERM);
      })
      .meta({ examples: ['12 weeks'] }),
  };
}
