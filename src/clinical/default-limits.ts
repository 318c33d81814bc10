import type { ClinicalLimits, Limit, LimitSettings } from './limits.js';

const from =
  (source: string) =>
  (value: string): Limit => ({ value, source });

const practice = from('common practice, no source');
const mppg = from('AAPM MPPG 12.a (2022)');
const mppgAndSir = from('AAPM MPPG 12.a (2022); SIR 2009 (Stecker et al., JVIR 20:S263)');
const sir2019 = from('SIR consensus guideline 2019 (Patel et al., JVIR 2019;30:1168)');
const sir2019Liver = from(
  'SIR consensus guideline 2019 (Patel et al., JVIR 2019;30:1168), chronic liver disease, read in a transcription',
);

/**
 * Defaults. Levels that could only be recalled and not looked up are left out: they would alarm or reassure
 * without a source. A site sets its own in the configuration, or turns `rememberedLimits` on.
 */
export const defaultLimits: ClinicalLimits = {
  radiation: {
    airKermaNotify: mppg('3'),
    airKermaStep: mppg('1'),
    airKermaSubstantial: mppgAndSir('5'),
    peakSkinDoseSubstantial: mppgAndSir('3'),
    windowDays: practice('180'),
    // A detector of 30 cm x 40 cm at 110 cm from the focus covers about 360 cm² at 60 cm, where the reference point lies.
    fieldLeast: practice('10'),
    fieldMost: practice('400'),
    // A tenth of the largest: a slip by ten then always falls below it, or outside the range.
    fieldNarrow: practice('40'),
    kermaRateLeast: practice('0.2'),
    kermaRateMost: practice('500'),
    productRateLeast: practice('0.01'),
    productRateMost: practice('100'),
    scanLeast: practice('0.1'),
    scanMost: practice('200'),
    local: {},
  },
  kidney: {
    egfrHighRisk: from(
      'ACR and National Kidney Foundation consensus 2020 (Davenport et al., Radiology 2020;294:660)',
    )('30'),
    labAgeDays: practice('30'),
  },
  bleeding: {
    labAgeDays: practice('30'),
    high: { inr: sir2019('1.8'), platelets: sir2019('50') },
    low: {
      inr: sir2019('3.0'),
      inrFemoral: sir2019('1.8'),
      inrRadial: sir2019('2.2'),
      platelets: sir2019('20'),
    },
    // At low risk the guideline gives no INR for chronic liver disease.
    liverHigh: { inr: sir2019Liver('2.5'), platelets: sir2019Liver('30'), fibrinogen: sir2019Liver('100') },
    liverLow: { platelets: sir2019Liver('20'), fibrinogen: sir2019Liver('100') },
  },
  drugs: { hold: {}, localAnaesthetic: {}, redose: {} },
  outcome: { residualNarrowing: practice('30'), narrowingDiffers: practice('10') },
};

const sir2009 = from('SIR 2009 (Stecker et al., JVIR 20:S263) and NCRP Report 168; from memory');
const asa = from('ASA practice guideline on preoperative fasting; from memory');
const label = from('product information; from memory');

/** Levels that are from memory. Off unless the site sets `limitsFromMemory`; each finding then says 'from memory'. */
export const rememberedLimits = {
  radiation: {
    peakSkinDoseNotify: sir2009('2'),
    peakSkinDoseStep: sir2009('0.5'),
    kermaAreaNotify: sir2009('300'),
    kermaAreaStep: sir2009('100'),
    kermaAreaSubstantial: sir2009('500'),
    fluoroscopyNotify: sir2009('30'),
    fluoroscopyStep: sir2009('15'),
    fluoroscopySubstantial: sir2009('60'),
  },
  drugs: {
    prophylaxisWithin: from('ASHP, IDSA, SIS and SHEA guideline 2013; from memory')('60'),
    fastingFood: asa('6'),
    fastingFluids: asa('2'),
    localAnaesthetic: { lidocaine: label('4.5'), 'lidocaine with adrenaline': label('7') },
  },
} satisfies LimitSettings;
