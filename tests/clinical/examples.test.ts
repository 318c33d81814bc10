import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { assess } from '../../src/clinical/assess.js';
import type { CalculationKind } from '../../src/clinical/calculation.js';
import { messageOf } from '../../src/findings/finding.js';
import { calculationRow } from '../../src/pipeline/check.js';
import { english } from '../support/english.js';
import { parseCase } from '../support/source.js';

/**
 * Every number that the assessment prints for an example is worked out here a second time: from the written text of the
 * record, by the published formula, in plain arithmetic and with luxon for times, without the code under test.
 */

interface Dose {
  drug: string;
  dose: string;
  strength?: string;
  at: string;
  for?: string;
}

interface Written {
  case: { date: string; timeZone: string; started: string; ended: string; session: number };
  patient: { birthDate: string; sex: 'female' | 'male'; weight: string };
  before: {
    labs: { what: string; value: string | number; at: string }[];
    checklist: { signIn: string; signOut: string };
    fasting: { food: string; clearFluids: string };
    anticoagulants: { drug: string; lastDose: string }[];
  };
  after: {
    labs: { what: string; value: string; at: string }[];
    urine: { volume: string; from: string; to: string }[];
  };
  drugs: Dose[];
  contrast: { agent: string; concentration: string; volume: string; route: string }[];
  radiation: {
    kermaAreaProduct: string;
    airKerma: string;
    doseLengthProduct: string;
    ctDoseIndex: string;
    earlier: { date: string; kermaAreaProduct: string; airKerma: string }[];
  };
  targets: Record<string, Record<string, string>>;
  devices: Record<string, { kind: string; implant?: boolean }>;
  events: { at: string; do: string; device?: string }[];
}

const number = (text: string | number) => Number(/-?\d+(?:\.\d+)?/.exec(String(text))?.[0]);
const unitOf = (text: string) => text.replace(/^[^a-zµ%]*/i, '');
/** Digits that floating point left over are no part of a sum. */
const tidy = (value: number) => String(Number(value.toPrecision(12)));

const GY_CM2: Record<string, number> = {
  Gy·cm2: 1,
  dGy·cm2: 0.1,
  cGy·cm2: 0.01,
  mGy·cm2: 0.001,
  µGy·m2: 0.01,
};
const product = (text: string) => number(text) * (GY_CM2[unitOf(text)] ?? Number.NaN);
const gray = (text: string) => number(text) * (unitOf(text) === 'mGy' ? 0.001 : 1);
const micromol = (text: string | number) => number(text) * (unitOf(String(text)) === 'mg/dL' ? 88.4 : 1);

function at(w: Written, text: string): DateTime {
  const zone = { zone: w.case.timeZone, setZone: false } as const;
  if (text.includes('T')) return DateTime.fromISO(text, zone);
  const time = DateTime.fromISO(`${w.case.date}T${text}`, zone);
  const start = DateTime.fromISO(`${w.case.date}T${w.case.started}`, zone);
  if (start.diff(time, 'hours').hours <= 12) return time;
  const next = DateTime.fromISO(w.case.date).plus({ days: 1 }).toISODate();
  return DateTime.fromISO(`${next}T${text}`, zone);
}
const minutes = (w: Written, from: string, to: string) => at(w, to).diff(at(w, from), 'minutes').minutes;
const floored = (hours: number) => `${(Math.floor(hours * 10 + 1e-6) / 10).toFixed(1)} h`;
const spanned = (n: number) => (n < 60 ? `${n} min` : `${n} min (${Math.floor(n / 60)} h ${n % 60} min)`);

const labs = (w: Written, what: string, when: 'before' | 'after') =>
  (w[when]?.labs ?? []).filter(lab => lab.what === what);
const access = (w: Written) =>
  w.events.filter(e => ['puncture', 'insert', 'exchange'].includes(e.do)).map(e => e.at)[0] ?? '';
const lastEvent = (w: Written) => w.events.at(-1)?.at ?? '';
const vascular = (route: string) => route === 'intra-arterial' || route === 'intravenous';
const contrastOf = (w: Written, about: string) =>
  w.contrast.filter(c => vascular(c.route) === (about === 'intravascular'));
const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
const dosesOf = (w: Written, drug: string, purpose: string) =>
  w.drugs.filter(d => d.drug.toLowerCase() === drug && d.for === purpose);

function trend(from: string | number, to: string | number): string {
  const percent = ((micromol(to) - micromol(from)) / micromol(from)) * 100;
  const word = percent < 0 ? 'falling' : 'rising';
  return `${word}: ${from} to ${to} (${percent < 0 ? '−' : '+'}${Math.abs(percent).toFixed(0)} %)`;
}

function narrowing(w: Written, about: string, when: 'Before' | 'After'): string {
  const target = w.targets[about] ?? {};
  return `${((1 - number(target[`lumen${when}`] ?? '') / number(target['diameter'] ?? '')) * 100).toFixed(0)} %`;
}

/** CKD-EPI 2021, Inker et al., NEJM 2021;385:1737. */
function egfr(w: Written): string {
  const scr = micromol(labs(w, 'creatinine', 'before').at(-1)?.value ?? '') / 88.4;
  const age = Math.floor(
    DateTime.fromISO(w.case.date).diff(DateTime.fromISO(w.patient.birthDate), 'years').years,
  );
  const [kappa, alpha, factor] = w.patient.sex === 'female' ? [0.7, -0.241, 1.012] : [0.9, -0.302, 1];
  const value =
    142 * Math.min(scr / kappa, 1) ** alpha * Math.max(scr / kappa, 1) ** -1.2 * 0.9938 ** age * factor;
  return `${value.toFixed(0)} mL/min/1.73 m²`;
}

const urine = (w: Written, about: string) => {
  const entry = w.after?.urine[Number(about) - 1];
  const hours = minutes(w, entry?.from ?? '', entry?.to ?? '') / 60;
  return { hours, rate: number(entry?.volume ?? '') / number(w.patient.weight) / hours };
};

/** Common practice, no source, where the rule is a table of words: read by hand from each record. */
const read: Record<string, string> = {
  'abscess-drain bleeding-risk': 'high: deep abscess drainage',
  'biliary-drainage-and-stent bleeding-risk': 'high: biliary interventions, cholecystostomy included',
  'caval-filter-retrieval-failed bleeding-risk': 'low: caval filter placement and uncomplicated removal',
  'coaxial-exchange-short-wire bleeding-risk': 'low: peripheral arterial intervention, sheath under 6 Fr',
  'dialysis-circuit-angioplasty bleeding-risk': 'low: dialysis access interventions',
  'fractured-wire-tip bleeding-risk': 'high: urinary tract interventions, nephrostomy placement included',
  'gastrostomy bleeding-risk': 'high: gastrostomy placement',
  'nephrostomy-exchange-transplant bleeding-risk':
    'low: catheter exchanges (gastrostomy, biliary, nephrostomy, abscess)',
  'biliary-drainage-and-stent technical-success/cbd': 'successful',
  'caval-filter-retrieval-failed technical-success/filter':
    'not successful: caval filter is in situ temporary',
  'fractured-wire-tip technical-success/kidney': 'successful',
  'coaxial-exchange-short-wire technical-success/ata': 'successful',
  'cut-locking-drain technical-success/cavity': 'successful',
  'dialysis-circuit-angioplasty technical-success/arch': 'successful',
  'embolisation technical-success/tumour': 'successful',
  'embolisation technical-success/feeder': 'successful',
  'nephrostomy-exchange-transplant technical-success/pelvis': 'successful',
  'ureteric-stent-tumour technical-success/ureter': 'successful',
  // Solved in the same session, stay not prolonged, no harm.
  'coaxial-exchange-short-wire grade/1/CIRSE 2017': '1',
  'coaxial-exchange-short-wire grade/1/Clavien-Dindo': 'I',
  'fractured-wire-tip grade/1/CIRSE 2017': '1',
  'fractured-wire-tip grade/1/Clavien-Dindo': 'I',
};

type ByHand = (w: Written, about: string, example: string) => string | undefined;
const table =
  (kind: string): ByHand =>
  (_w, about, example) =>
    read[`${example} ${kind}${about && `/${about}`}`] ??
    (kind === 'technical-success' ? undefined : `no row for ${example}`);

const byHand: Record<CalculationKind, ByHand> = {
  'kerma-area-product': w => `${tidy(product(w.radiation.kermaAreaProduct))} Gy·cm²`,
  'mean-field-area': w =>
    `${(product(w.radiation.kermaAreaProduct) / gray(w.radiation.airKerma)).toFixed(0)} cm²`,
  'scanned-length': w =>
    `${(number(w.radiation.doseLengthProduct) / number(w.radiation.ctDoseIndex)).toFixed(0)} cm`,
  'air-kerma-cumulative': w =>
    `${tidy(gray(w.radiation.airKerma) + sum(w.radiation.earlier.map(e => gray(e.airKerma))))} Gy`,
  'kerma-area-cumulative': w =>
    `${tidy(product(w.radiation.kermaAreaProduct) + sum(w.radiation.earlier.map(e => product(e.kermaAreaProduct))))} Gy·cm²`,
  'contrast-volume': (w, about) => `${tidy(sum(contrastOf(w, about).map(c => number(c.volume))))} mL`,
  'iodine-mass': (w, about) =>
    `${tidy(sum(contrastOf(w, about).map(c => (number(c.volume) * number(c.concentration)) / 1000)))} g`,
  'gadolinium-mass': () => 'no example gives any',
  egfr,
  'egfr-cystatin': () => 'no example gives any',
  'egfr-bedside': () => 'no example gives any',
  // The one example falls after the case: neither a rise of 26.5 µmol/L nor 1.5 times.
  'kidney-injury': w => {
    const from = micromol(labs(w, 'creatinine', 'before').at(-1)?.value ?? '');
    const to = micromol(labs(w, 'creatinine', 'after').at(-1)?.value ?? '');
    return to - from < 26.5 && to / from < 1.5 ? 'criteria not met' : 'to be staged';
  },
  'creatinine-trend': (w, about) => {
    const before = labs(w, 'creatinine', 'before').map(lab => lab.value);
    const after = labs(w, 'creatinine', 'after').map(lab => lab.value);
    return about === 'before'
      ? trend(before.at(-2) ?? '', before.at(-1) ?? '')
      : trend(before.at(-1) ?? '', after.at(-1) ?? '');
  },
  'urine-output': (w, about) => `${urine(w, about).rate.toFixed(2)} mL/kg/h`,
  'urine-stage': (w, about) => (urine(w, about).rate >= 0.5 ? 'criterion not met' : 'to be staged'),
  'bleeding-risk': table('bleeding-risk'),
  'haemoglobin-change': () => 'no example gives any',
  'last-dose': (w, about) =>
    floored(minutes(w, w.before.anticoagulants[Number(about) - 1]?.lastDose ?? '', access(w)) / 60),
  prophylaxis: (w, about) => {
    const given = dosesOf(w, about, 'prophylaxis').map(d => minutes(w, d.at, access(w)));
    return `${Math.min(...given.filter(n => n >= 0))} min before`;
  },
  fasting: (w, about) =>
    floored(
      minutes(w, about === 'food' ? w.before.fasting.food : w.before.fasting.clearFluids, w.case.started) /
        60,
    ),
  total: (w, about) => {
    const [drug = '', purpose = ''] = about.split('/');
    const doses = dosesOf(w, drug, purpose).map(d => d.dose);
    return `${tidy(sum(doses.map(number)))} ${unitOf(doses[0] ?? '')}`;
  },
  'local-anaesthetic': (w, about) => {
    const mg = sum(
      dosesOf(w, about, 'local anaesthesia').map(d => number(d.dose) * number(d.strength ?? '') * 10),
    );
    return `${(mg / number(w.patient.weight)).toFixed(2)} mg/kg (${tidy(mg)} mg)`;
  },
  grade: table('grade'),
  'narrowing-before': (w, about) => narrowing(w, about, 'Before'),
  'narrowing-after': (w, about) => narrowing(w, about, 'After'),
  'technical-success': table('technical-success'),
  sessions: w => String(w.case.session),
  'door-to-access': w => spanned(minutes(w, w.before.checklist.signIn, access(w))),
  'access-to-device': (w, _about, example) => {
    // The event at which the first device that stays was let go, read by hand.
    const let_go: Record<string, string> = {
      'biliary-drainage-and-stent': '09:57',
      embolisation: '01:10-05:00',
      'liver-biopsy': '14:37',
      'ureteric-stent-tumour': '14:00',
    };
    return spanned(minutes(w, access(w), let_go[example] ?? ''));
  },
  'access-to-end': w => spanned(minutes(w, access(w), lastEvent(w))),
  'case-length': w => spanned(minutes(w, w.case.started, w.case.ended)),
  'end-to-sign-out': w => spanned(minutes(w, lastEvent(w), w.before.checklist.signOut)),
};

const folder = join(import.meta.dirname, '..', '..', 'examples');
const examples = readdirSync(folder)
  .filter(name => /\.(?:yaml|json)$/.test(name) && !['site.yaml', 'mistaken.yaml'].includes(name))
  .map(name => {
    const text = readFileSync(join(folder, name), 'utf8');
    const { record, findings } = parseCase(text);
    if (!record) throw new Error(name);
    return {
      name: name.replace(/\.\w+$/, ''),
      written: parse(text) as Written,
      assessment: assess(record, {}, findings),
    };
  });

describe.each(examples)('$name', ({ name, written, assessment }) => {
  const calculations = assessment.calculations.map(one => calculationRow(one));
  it.each(calculations.filter(c => c.result))('$key: $result.text', ({ key, result }) => {
    const [kind = '', ...about] = key.split('/');
    expect(result?.text).toBe(byHand[kind as CalculationKind](written, about.join('/'), name));
  });

  // Printed digits and the quantity that goes to other systems are the same number.
  it('says in words what it says in numbers', () => {
    for (const { result, key } of calculations) {
      if (!result?.quantity || /^(?:kidney-injury|urine-stage|haemoglobin)/.test(key)) continue;
      expect(result.text, key).toContain(result.quantity.value);
    }
  });

  it('raises no clinical error, and no warning that is not acknowledged', () => {
    const loud = assessment.findings.filter(
      f => f.code.startsWith('clinical.') && f.severity !== 'information' && !f.acknowledged,
    );
    expect(loud.map(f => `${f.code} ${f.path}: ${messageOf(f)}`)).toEqual([]);
  });
});

it('the examples show most kinds of calculation', () => {
  const shown = new Set(examples.flatMap(e => e.assessment.calculations.map(c => c.key.split('/')[0])));
  const missing = Object.keys(byHand).filter(kind => !shown.has(kind));
  expect(missing.sort()).toEqual(['egfr-bedside', 'egfr-cystatin', 'gadolinium-mass', 'haemoglobin-change']);
});

describe('the three mistakes that must not pass', () => {
  const folderText = (name: string) => readFileSync(join(folder, name), 'utf8');
  const codes = (text: string) => {
    const { record } = parseCase(text);
    if (!record) throw new Error('the changed example cannot be read');
    return assess(record);
  };

  it('a kerma-area product in the wrong unit', () => {
    const text = folderText('ureteric-stent-tumour.yaml');
    expect(text).toContain('1840 cGy·cm2');
    // A tenfold slip to 19 cm² may be a narrow beam as well: it is asked about, more softly.
    const narrow = codes(text.replace('1840 cGy·cm2', '1840 mGy·cm2')).findings;
    expect(narrow.map(f => f.code)).toContain('clinical.dose-field-narrow');
    for (const wrong of ['18.4 mGy·cm2', '18.4 cGy·cm2', '1840 dGy·cm2', '1840 Gy·cm2', '1840 Gy·m2'])
      expect(codes(text.replace('1840 cGy·cm2', wrong)).findings.map(f => f.code)).toContain(
        'clinical.dose-unit-slip',
      );
  });

  it('a device left in place that no aftercare comes back to', () => {
    const tree = parse(folderText('ureteric-stent-tumour.yaml')) as {
      aftercare: { device?: string }[];
      left: { device: string; until?: unknown; latest?: unknown }[];
    };
    tree.aftercare = tree.aftercare.filter(item => item.device !== 'stent');
    for (const entry of tree.left.filter(one => one.device === 'stent')) {
      delete entry.until;
      delete entry.latest;
    }
    const found = codes(JSON.stringify(tree)).findings.find(
      f => f.code === 'clinical.left-without-aftercare',
    );
    expect([found?.severity, found?.path]).toEqual(['error', 'left[0]']);
  });

  it('an adult equation for a child of twelve', () => {
    const text = folderText('ureteric-stent-tumour.yaml');
    const child = text.replace('birthDate: 1959-04-21', 'birthDate: 2011-04-21');
    expect(child).not.toBe(text);
    const { calculations } = codes(child);
    expect(calculations.map(c => c.key)).not.toContain('egfr');
    // Schwartz et al. 2009: 0.413 × 179 cm ÷ (138 ÷ 88.4) mg/dL = 47.4, worked out by hand.
    const found = calculations.find(c => c.key === 'egfr-bedside');
    expect(english(found?.result?.text)).toBe('47 mL/min/1.73 m²');
  });
});
