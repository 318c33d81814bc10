import { message, type Param } from '../findings/message.js';

/** A limit with where it comes from, so that a finding can say whose limit it was. */
export interface Limit {
  /** Decimal text in the unit named beside it. */
  readonly value: string;
  readonly source: string;
}

/** Limits by a name: of a drug, or of a kind of case. Case and hyphens do not matter. */
export type LimitTable = Readonly<Record<string, Limit>>;

/** INR above which, and platelets (10⁹/L) and fibrinogen (mg/dL) below which, something is said. */
export interface LabLimits {
  readonly inr?: Limit;
  /** INR from which something is said where a femoral or radial artery is entered. */
  readonly inrFemoral?: Limit;
  readonly inrRadial?: Limit;
  readonly platelets?: Limit;
  readonly fibrinogen?: Limit;
}

/** Levels at which something is said. Absent: nothing is said. A site may set, change or switch off each. */
export interface ClinicalLimits {
  readonly radiation: {
    /** Gy at the reference point: first notification, then each further step, and the substantial dose level. */
    readonly airKermaNotify?: Limit;
    readonly airKermaStep?: Limit;
    readonly airKermaSubstantial?: Limit;
    /** Gy. */
    readonly peakSkinDoseNotify?: Limit;
    readonly peakSkinDoseStep?: Limit;
    readonly peakSkinDoseSubstantial?: Limit;
    /** Gy·cm². */
    readonly kermaAreaNotify?: Limit;
    readonly kermaAreaStep?: Limit;
    readonly kermaAreaSubstantial?: Limit;
    /** Minutes. */
    readonly fluoroscopyNotify?: Limit;
    readonly fluoroscopyStep?: Limit;
    readonly fluoroscopySubstantial?: Limit;
    /** Days over which earlier cases of the same patient are added. */
    readonly windowDays?: Limit;
    /** cm²: mean field at the reference point that is still believed. */
    readonly fieldLeast?: Limit;
    readonly fieldMost?: Limit;
    /** cm²: mean field under which a narrow beam and a slip by ten cannot be told apart. */
    readonly fieldNarrow?: Limit;
    /** mGy of air kerma in a minute of fluoroscopy that is still believed, images included. */
    readonly kermaRateLeast?: Limit;
    readonly kermaRateMost?: Limit;
    /** Gy·cm² in a minute of fluoroscopy that is still believed, images included. */
    readonly productRateLeast?: Limit;
    readonly productRateMost?: Limit;
    /** cm: length scanned by CT, all passes together, that is still believed. */
    readonly scanLeast?: Limit;
    readonly scanMost?: Limit;
    /** cm: length under which a short scan and a slip by ten cannot be told apart. */
    readonly scanShort?: Limit;
    /** Local reference level of kerma-area product by kind of case, Gy·cm². */
    readonly local: LimitTable;
  };
  readonly kidney: {
    /** mL/min/1.73 m² below which intravascular contrast is said to matter. */
    readonly egfrHighRisk?: Limit;
    /** mL of intravascular contrast, for anyone. */
    readonly volume?: Limit;
    /** mL of intravascular contrast for each kg, over creatinine in mg/dL; not on dialysis, not of a child. */
    readonly volumeByCreatinine?: Limit;
    /** mL of intravascular contrast for each kg of a child. */
    readonly volumeChild?: Limit;
    /** Days after which creatinine before intravascular contrast counts as old. */
    readonly labAgeDays?: Limit;
  };
  readonly bleeding: {
    /** Days after which a lab value counts as old. */
    readonly labAgeDays?: Limit;
    readonly high: LabLimits;
    readonly low: LabLimits;
    /** In place of the above where chronic liver disease is among the conditions. */
    readonly liverHigh: LabLimits;
    readonly liverLow: LabLimits;
  };
  readonly drugs: {
    /** Hours between the last dose and access, by drug: of any procedure, and by its bleeding risk. */
    readonly hold: LimitTable;
    readonly holdHigh: LimitTable;
    readonly holdLow: LimitTable;
    /** How many times the usual most of the table of doses is not believed any more. Absent: doses are not checked. */
    readonly doseFactor?: Limit;
    /** mg/kg, by local anaesthetic; `… with adrenaline` for the mixture. */
    readonly localAnaesthetic: LimitTable;
    /** Minutes before access within which prophylaxis is given, and by drug where that differs. */
    readonly prophylaxisWithin?: Limit;
    readonly prophylaxisWindow: LimitTable;
    /** Hours after which another dose of prophylaxis is due while the case lasts, by drug. */
    readonly redose: LimitTable;
    /** Hours without solid food, and without clear fluids, before sedation. */
    readonly fastingFood?: Limit;
    readonly fastingFluids?: Limit;
  };
  readonly outcome: {
    /** Per cent of narrowing left above which a dilated target is not called a success. */
    readonly residualNarrowing?: Limit;
    /** Points between a written narrowing and the one worked out from the diameters. */
    readonly narrowingDiffers?: Limit;
  };
}

/** What a site sets: a limit, `off`, or nothing. */
export type LimitSettings = { readonly [name: string]: Limit | LimitSettings | 'off' | undefined };

/** Limits with the settings of a site laid over them; `off` takes a limit away. */
export function mergeLimits(limits: ClinicalLimits, settings: LimitSettings): ClinicalLimits {
  return merge({ ...limits }, settings) as ClinicalLimits;
}

const isLimit = (entry: unknown): entry is Limit =>
  typeof entry === 'object' && entry !== null && 'value' in entry && 'source' in entry;

function merge(base: object, settings: LimitSettings): object {
  const result = new Map<string, unknown>(Object.entries(base));
  for (const [name, set] of Object.entries(settings)) {
    if (set === undefined) continue;
    const old = result.get(name);
    if (set === 'off') result.delete(name);
    else if (isLimit(set)) result.set(name, set);
    else result.set(name, merge(typeof old === 'object' && old !== null ? old : {}, set));
  }
  return Object.fromEntries(result);
}

/** What the source of a limit says that was recalled and not looked up. */
export const FROM_MEMORY = 'from memory';

/** Limits without those that were recalled and not looked up. */
export const publishedOnly = (limits: ClinicalLimits): ClinicalLimits => published(limits) as ClinicalLimits;

function published(tree: object): object {
  return Object.fromEntries(
    Object.entries(tree).flatMap(([name, entry]: [string, object]): [string, object][] =>
      isLimit(entry)
        ? entry.source.includes(FROM_MEMORY)
          ? []
          : [[name, entry]]
        : [[name, published(entry)]],
    ),
  );
}

/** A limit that may be off, as one end of a range: `0` or 'any number of' stands for one that is. */
export const rangeOf = (least: Limit | undefined, most: Limit | undefined) => ({
  least: { number: least?.value ?? '0' },
  most: most ? { number: most.value } : message('range.open'),
});

/** `3 or 4`. */
export const either = ([first = '', ...rest]: readonly Param[]): Param =>
  rest.length === 0 ? first : message('either', { one: first, other: either(rest) });
