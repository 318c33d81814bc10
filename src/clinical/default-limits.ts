import type { ClinicalLimits, Limit, LimitTable } from './limits.js';

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

const memory = (source: string) => from(`${source}; from memory, confirm against local policy`);
const sir2009 = memory('SIR 2009 (Stecker et al., JVIR 20:S263) and NCRP Report 168');
const asa = memory('ASA practice guideline on preoperative fasting 2017');
const ashp = memory('ASHP, IDSA, SIS and SHEA guideline 2013');
const label = memory('product information');
const holds2019 = memory('SIR consensus guideline 2019 (Patel et al., JVIR 2019;30:1168), table of drugs');
const holds2012 = memory('SIR consensus guideline 2012 (Patel et al., JVIR 2012;23:727)');

/** The same limit for each name. */
const each = (limit: Limit, names: string): LimitTable =>
  Object.fromEntries(names.split('|').map(name => [name, limit]));

const lowMolecular =
  'enoxaparin|dalteparin|tinzaparin|nadroparin|certoparin|bemiparin|low molecular weight heparin';

/** Defaults, each with its source. What was recalled and not looked up says so; a site confirms, changes or drops it. */
export const defaultLimits: ClinicalLimits = {
  radiation: {
    airKermaNotify: mppg('3'),
    airKermaStep: mppg('1'),
    airKermaSubstantial: mppgAndSir('5'),
    peakSkinDoseNotify: sir2009('2'),
    peakSkinDoseStep: sir2009('0.5'),
    peakSkinDoseSubstantial: mppgAndSir('3'),
    kermaAreaNotify: sir2009('300'),
    kermaAreaStep: sir2009('100'),
    kermaAreaSubstantial: sir2009('500'),
    fluoroscopyNotify: sir2009('30'),
    fluoroscopyStep: sir2009('15'),
    fluoroscopySubstantial: sir2009('60'),
    windowDays: practice('180'),
    // A detector of 30 cm x 40 cm at 110 cm from the focus covers about 360 cm² at 60 cm, where the reference point lies.
    fieldLeast: practice('10'),
    fieldMost: practice('400'),
    // A tenth of the largest: a slip by ten then always falls below it, or outside the range.
    fieldNarrow: practice('40'),
    kermaRateLeast: practice('0.2'),
    kermaRateMost: practice('300'),
    productRateLeast: practice('0.01'),
    productRateMost: practice('60'),
    scanLeast: practice('0.1'),
    scanMost: practice('200'),
    // One pass over an organ is longer.
    scanShort: practice('15'),
    local: {},
  },
  kidney: {
    egfrHighRisk: from(
      'ACR and National Kidney Foundation consensus 2020 (Davenport et al., Radiology 2020;294:660)',
    )('30'),
    volume: memory('Cigarroa et al., Am J Med 1989;86:649')('300'),
    volumeByCreatinine: memory('Cigarroa et al., Am J Med 1989;86:649')('5'),
    volumeChild: label('6'),
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
  drugs: {
    hold: {},
    holdHigh: {
      ...each(holds2019('12'), lowMolecular),
      ...each(holds2019('4'), 'heparin|argatroban|bivalirudin|tirofiban|eptifibatide'),
      ...each(holds2019('24'), 'abciximab'),
      ...each(holds2019('48'), 'apixaban|rivaroxaban|edoxaban|dabigatran|fondaparinux'),
      ...each(holds2019('72'), 'aspirin'),
      ...each(holds2019('120'), 'clopidogrel|ticagrelor|warfarin|acenocoumarol|phenprocoumon'),
      ...each(holds2019('168'), 'prasugrel'),
    },
    holdLow: each(holds2012('12'), lowMolecular),
    doseFactor: practice('2'),
    localAnaesthetic: {
      lidocaine: label('4.5'),
      'lidocaine with adrenaline': label('7'),
      bupivacaine: label('2'),
      'bupivacaine with adrenaline': label('2.5'),
      levobupivacaine: label('2'),
      ropivacaine: label('3'),
      mepivacaine: label('5'),
      'mepivacaine with adrenaline': label('7'),
      prilocaine: label('6'),
      'prilocaine with adrenaline': label('8'),
      articaine: label('7'),
      procaine: label('7'),
      chloroprocaine: label('11'),
      'chloroprocaine with adrenaline': label('14'),
    },
    prophylaxisWithin: ashp('60'),
    prophylaxisWindow: each(ashp('120'), 'vancomycin|teicoplanin|ciprofloxacin|levofloxacin|moxifloxacin'),
    redose: {
      ...each(ashp('2'), 'ampicillin-sulbactam|cefoxitin|piperacillin-tazobactam|ampicillin'),
      ...each(ashp('4'), 'cefazolin|cefuroxime'),
      ...each(ashp('6'), 'clindamycin|cefotetan'),
    },
    fastingFood: asa('6'),
    fastingFluids: asa('2'),
  },
  outcome: { residualNarrowing: practice('30'), narrowingDiffers: practice('10') },
};
