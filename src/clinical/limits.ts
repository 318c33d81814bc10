/** A limit with where it comes from, so that a finding can say whose limit it was. */
export interface Limit {
  /** Decimal text in the unit named beside it. */
  readonly value: string;
  readonly source: string;
}

/** Levels at which something is said. Absent: nothing is said. A site may set or change each. */
export interface ClinicalLimits {
  readonly radiation: {
    /** Gy at the reference point. */
    readonly airKermaNotify?: Limit;
    readonly airKermaStep?: Limit;
    readonly airKermaSubstantial?: Limit;
    /** Gy. */
    readonly peakSkinDoseSubstantial?: Limit;
    /** Gy·cm². */
    readonly kermaAreaSubstantial?: Limit;
    /** Minutes. */
    readonly fluoroscopySubstantial?: Limit;
    /** Days over which earlier cases of the same patient are added. */
    readonly windowDays: Limit;
    /** Local reference level of kerma-area product by kind of case, Gy·cm². */
    readonly local: Readonly<Record<string, Limit>>;
  };
  readonly kidney: {
    /** mL/min/1.73 m² below which intravascular contrast is said to matter. */
    readonly egfrHighRisk: Limit;
    /** mL of intravascular contrast. */
    readonly volume?: Limit;
  };
  readonly bleeding: {
    /** Days after which a lab value counts as old. */
    readonly labAgeDays: Limit;
    readonly high: { readonly inr: Limit; readonly platelets: Limit };
    readonly low: { readonly inr: Limit; readonly platelets: Limit };
  };
  readonly drugs: {
    /** Hours between the last dose and access, by drug name in lower case. */
    readonly hold: Readonly<Record<string, Limit>>;
    /** mg/kg, by local anaesthetic in lower case. */
    readonly localAnaesthetic: Readonly<Record<string, Limit>>;
    /** Minutes before access within which prophylaxis is given. */
    readonly prophylaxisWithin?: Limit;
    /** Hours without solid food, and without clear fluids, before sedation. */
    readonly fastingFood?: Limit;
    readonly fastingFluids?: Limit;
  };
}

const MPPG = 'AAPM MPPG 12.a (2022)';
const SIR2019 = 'SIR consensus guideline 2019 (Patel et al., JVIR 2019;30:1168)';

/**
 * Defaults. Levels that could only be recalled and not looked up are left out: they would alarm or reassure
 * without a source. A site sets its own in the configuration.
 */
export const defaultLimits: ClinicalLimits = {
  radiation: {
    airKermaNotify: { value: '3', source: MPPG },
    airKermaStep: { value: '1', source: MPPG },
    airKermaSubstantial: { value: '5', source: `${MPPG}; SIR 2009 (Stecker et al., JVIR 20:S263)` },
    peakSkinDoseSubstantial: { value: '3', source: `${MPPG}; SIR 2009 (Stecker et al., JVIR 20:S263)` },
    windowDays: { value: '180', source: 'common practice, no source' },
    local: {},
  },
  kidney: {
    egfrHighRisk: {
      value: '30',
      source: 'ACR and National Kidney Foundation consensus 2020 (Davenport et al., Radiology 2020;294:660)',
    },
  },
  bleeding: {
    labAgeDays: { value: '30', source: 'common practice, no source' },
    high: { inr: { value: '1.8', source: SIR2019 }, platelets: { value: '50', source: SIR2019 } },
    low: { inr: { value: '3.0', source: SIR2019 }, platelets: { value: '20', source: SIR2019 } },
  },
  drugs: { hold: {}, localAnaesthetic: {} },
};
