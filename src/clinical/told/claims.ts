import { entriesOf } from '../../record/entries.js';
import { convert, type Quantity } from '../../record/quantity.js';
import { unitOfCode } from '../../record/units.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { isMedium } from '../agreement/contrast.js';
import type { Case, Claim, Recorded, Spot } from './claim.js';
import { recordedSizes } from './sizes.js';

const dimensionOf = ({ figure }: Spot) => unitOfCode(figure.quantity.code)?.dimension;

const at = (quantity: Quantity | undefined, place: string): Recorded[] =>
  quantity ? [{ quantity, place }] : [];

const targetsOf = ({ record }: Case) => Object.entries(record.targets ?? {});

const otherPressure =
  /\b(?:free|wedged?|occluded|atrial|portal|caval|arterial|systolic|mean|aortic|venous|pulmonary)\b/i;

/** Pressure gradients, by the pressures of the targets. */
const gradient: Claim = (spot, of) => {
  if (dimensionOf(spot) !== 'pressure' || !/\bgradient\b/i.test(spot.clause)) return undefined;
  // 'Free pressure 9 mmHg, wedged 27 mmHg, gradient 18 mmHg': each is that of its own part.
  const ends = spot.clause.slice(spot.figure.index).slice(0, spot.figure.length).includes(',');
  const part = `${spot.before.split(',').at(-1) ?? ''} ${ends ? '' : (spot.after.split(',')[0] ?? '')}`;
  if (otherPressure.test(part) && !/\bgradient\b/i.test(part)) return undefined;
  return targetsOf(of).flatMap(([key, target]) => [
    ...at(target.pressureBefore, `targets.${key}.pressureBefore`),
    ...at(target.pressureAfter, `targets.${key}.pressureAfter`),
    ...(target.measures ?? []).flatMap(({ before, after }, i) => [
      ...at(before, `targets.${key}.measures[${i}].before`),
      ...at(after, `targets.${key}.measures[${i}].after`),
    ]),
  ]);
};

const narrowing: Claim = (spot, of) => {
  if (spot.figure.quantity.code !== '%') return undefined;
  const left = /^\s*(?:residual\b|left\s*$|remain|rest\b)/i.test(spot.after);
  if (!left && !/\b(?:stenos[ie]s|narrowing|narrowed|occlusion)\b/i.test(spot.clause)) return undefined;
  if (/\b(?:saturation|oxygen|height|air|ejection|haematocrit)\b/i.test(spot.clause)) return undefined;
  return targetsOf(of).flatMap(([key, target]) => [
    ...at(target.narrowingBefore, `targets.${key}.narrowingBefore`),
    ...at(target.narrowingAfter, `targets.${key}.narrowingAfter`),
  ]);
};

const sums = (parts: readonly (Quantity | undefined)[], place: string): Recorded[] => {
  const known = parts.flatMap(part => (part ? (convert(part, 'mL') ?? []) : []));
  if (known.length < 2 || known.length < parts.length) return [];
  const value = known.reduce((a, b) => a.plus(b)).toString();
  return [{ quantity: { value, unit: 'mL', code: 'mL' }, place }];
};

/** `40 mL of contrast`, by name or in general. */
const contrast: Claim = (spot, { record }) => {
  if (dimensionOf(spot) !== 'volume' || spot.told.scope === 'event') return undefined;
  const named = /^\s*(?:of )?((?:[\w-]+ ){0,2}[\w-]+)/.exec(spot.after)?.[1] ?? '';
  const words = named.split(' ');
  const isContrast =
    /\bcontrast\b/i.test(named) ||
    /\bcontrast(?: medium| agent| volume)?(?: of|:| was|,)?\s*$/i.test(spot.before);
  if (!isContrast && !words.some(word => isMedium(word))) return undefined;
  const list = entriesOf(record.contrast);
  return [
    ...list.flatMap(({ volume }, i) => at(volume, `contrast[${i}].volume`)),
    ...sums(
      list.map(({ volume }) => volume),
      'contrast',
    ),
    ...(record.events ?? []).flatMap(({ do: verb, agent, volume }, i) =>
      verb === 'inject' && agent !== undefined && isMedium(agent) ? at(volume, `events[${i}].volume`) : [],
    ),
  ];
};

const fluids =
  /^(?:balloons?|cuffs?|fluid|blood|pus|bile|urine|ascites|effusion|saline|air|water|contrast|clear|thick|turbid)$/i;

/** `5 mL of cement`: what was injected, by agent or device. */
const injected: Claim = (spot, { record, devices }) => {
  if (dimensionOf(spot) !== 'volume' || spot.told.scope === 'event') return undefined;
  const word = /^\s*(?:of )?(?:[\w-]+ )??([\w-]{4,})/.exec(spot.after)?.[1] ?? '';
  if (word === '' || fluids.test(word) || isMedium(word)) return undefined;
  // 'Spheres' are microspheres, and the 'glue' of the text is the key of a liquid embolic.
  const named = new RegExp(`${word.length < 6 ? '\\b' : ''}${word.replace(/s$/, '')}`, 'i');
  const mine = (record.events ?? [])
    .map((event, i) => ({ event, place: `events[${i}].volume` }))
    .filter(
      ({ event: { do: verb, agent, device } }) =>
        verb === 'inject' &&
        named.test(
          `${agent ?? ''} ${device ?? ''} ${device === undefined ? '' : (devices.get(device)?.kind ?? '')}`,
        ),
    );
  const volumes = mine.map(({ event }) => event.volume);
  const groups = (['target', 'device', 'through'] as const).flatMap(field =>
    [...new Set(mine.map(({ event }) => event[field]))].flatMap(key =>
      sums(
        mine.filter(({ event }) => event[field] === key).map(({ event }) => event.volume),
        'events',
      ),
    ),
  );
  return volumes.includes(undefined)
    ? []
    : [
        ...sums(volumes, 'events'),
        ...mine.flatMap(({ event, place }) => at(event.volume, place)),
        ...groups,
        ...entriesOf(record.drugs).flatMap(({ drug, dose }, i) =>
          named.test(drug.text) ? at(dose, `drugs[${i}].dose`) : [],
        ),
      ];
};

/** `dilated to 5 mm`: by what opened there. */
const opened: Claim = (spot, { record, devices }) => {
  if (
    dimensionOf(spot) !== 'length' ||
    !/\b(?:dilated|ballooned|stented|opened|expanded|post-?dilated) (?:up )?to\s*$/i.test(spot.before)
  )
    return undefined;
  // A duct or a vein that is found wide was dilated by nobody.
  if (
    /\b(?:ducts?|ureters?|calyces|calices|collecting|pelvis|bowel|loops?|varic\w+|found|measur\w+)\b/i.test(
      spot.before,
    )
  )
    return undefined;
  return [
    ...[...devices.values()].flatMap(({ key, size, diameter, length }) =>
      [size?.diameter, size?.upTo, diameter, size?.length, length].flatMap(one => at(one, `devices.${key}`)),
    ),
    ...(record.events ?? []).flatMap(({ diameter }, i) => at(diameter, `events[${i}].diameter`)),
    ...targetsOf({ record, devices }).flatMap(([key, { diameter, lumenAfter }]) => [
      ...at(diameter, `targets.${key}.diameter`),
      ...at(lumenAfter, `targets.${key}.lumenAfter`),
    ]),
  ];
};

/** `distended with 22 mL`: all that was injected, one by one and in all. */
const distended: Claim = (spot, { record }) => {
  if (dimensionOf(spot) !== 'volume' || spot.told.scope === 'event') return undefined;
  if (
    !/\b(?:distended|hydrodilated|filled|embolised|injected|sclerosed|treated|infiltrated|lavaged) with(?: a total of| in all)?\s*$/i.test(
      spot.before,
    )
  )
    return undefined;
  const mine = (record.events ?? [])
    .map(({ do: verb, volume }, i) => ({ verb, volume, place: `events[${i}].volume` }))
    .filter(({ verb }) => verb === 'inject' || verb === 'inflate' || verb === 'flush' || verb === 'lock');
  const given = [
    ...entriesOf(record.drugs).map(({ dose }, i) => ({ volume: dose, place: `drugs[${i}].dose` })),
    ...entriesOf(record.contrast).map(({ volume }, i) => ({ volume, place: `contrast[${i}].volume` })),
  ];
  const volumes = mine.map(({ volume }) => volume);
  const known = volumes.filter(one => one !== undefined);
  return [
    ...sums(known, 'events'),
    ...sums(
      [
        ...known,
        ...given
          .map(({ volume }) => volume)
          .filter(one => one !== undefined && convert(one, 'mL') !== undefined),
      ],
      'events',
    ),
    ...[...mine, ...given].flatMap(({ volume, place }) => at(volume, place)),
  ];
};

/** What came out: `1200 mL drained`. */
const drained: Claim = (spot, { record }) => {
  if (dimensionOf(spot) !== 'volume') return undefined;
  const out = 'drained|aspirated|evacuated|taken off|tapped|came out|sucked out';
  const told =
    new RegExp(`^\\s*(?:of [\\w -]{1,40} )?(?:was |were )?(?:${out})\\b`, 'i').test(spot.after) ||
    new RegExp(`\\b(?:${out})(?: of| was|:)?\\s*$`, 'i').test(spot.before);
  if (!told) return undefined;
  const mine = (record.events ?? [])
    .map((event, i) => ({ event, place: `events[${i}].volume` }))
    .filter(({ event: { do: verb } }) => verb === 'aspirate');
  const volumes = mine.map(({ event }) => event.volume);
  if (volumes.includes(undefined)) return [];
  return [
    ...mine.flatMap(({ event, place }) => at(event.volume, place)),
    ...sums(volumes, 'events'),
    ...entriesOf(record.specimens).flatMap(({ volume }, i) => at(volume, `specimens[${i}].volume`)),
  ];
};

/** Figures of the console, told by their units, which nothing else has, and the time of fluoroscopy. */
const dose: Claim = (spot, { record: { radiation } }) => {
  if (radiation === undefined || radiation === 'none') return undefined;
  const field = (
    name:
      | 'kermaAreaProduct'
      | 'airKerma'
      | 'fluoroscopyTime'
      | 'peakSkinDose'
      | 'doseLengthProduct'
      | 'ctDoseIndex',
  ) => at(radiation[name], `radiation.${name}`);
  switch (dimensionOf(spot)) {
    case 'kermaArea':
      return field('kermaAreaProduct');
    case 'kermaLength':
      return field('doseLengthProduct');
    case 'kerma':
      return [...field('airKerma'), ...field('peakSkinDose'), ...field('ctDoseIndex')];
    case 'duration':
      return /\bfluoroscopy\b|\bscreening time\b/i.test(spot.clause) ? field('fluoroscopyTime') : undefined;
    default:
      return undefined;
  }
};

const body: Claim = (spot, { record: { patient } }) => {
  if (dimensionOf(spot) === 'mass' && /\bweigh(?:s|ed|t|ing)\b/i.test(spot.clause))
    return at(patient.weight, 'patient.weight');
  if (dimensionOf(spot) === 'length' && /^\s*tall\b/i.test(spot.after))
    return at(patient.height, 'patient.height');
  return undefined;
};

const doses = new Set(['dose', 'mass', 'activity']);

/** `adrenaline 0.5 mg`, `50 mg of doxorubicin`: by the doses of that drug. */
const drug: Claim = (spot, { record }) => {
  if (!doses.has(dimensionOf(spot) ?? '') || spot.figure.quantity.code === 'kg') return undefined;
  const next = /^\s*(?:of )?([A-Za-z][\w-]{3,})/.exec(spot.after)?.[1] ?? '';
  const last = /([A-Za-z][\w-]{3,})\s*(?:,|of|:)?\s*$/.exec(spot.before)?.[1] ?? '';
  const names = [...drugsIn(next), ...drugsIn(last)].map(({ name }) => name);
  const mine = entriesOf(record.drugs)
    .map((given, i) => ({ given, place: `drugs[${i}].dose` }))
    .filter(({ given }) => drugsIn(given.drug.text).some(({ name }) => names.includes(name)));
  if (mine.length === 0) return undefined;
  const mg = mine.flatMap(({ given }) => milligramsOf(given.dose) ?? []);
  const asTold = milligramsOf(spot.figure.quantity);
  const all = mine.map(({ given, place }) => ({ quantity: given.dose, place }));
  if (!asTold) return all;
  return [...all, ...(mg.length > 1 ? [{ quantity: total(mg), place: 'drugs' }] : [])].flatMap(
    ({ quantity, place }) => {
      const same = milligramsOf(quantity);
      // Masses are compared in the unit that is told.
      return same ? [{ quantity: inUnit(same, spot.figure.quantity), place }] : [];
    },
  );
};

const perMg: Readonly<Record<string, string>> = { g: '1000', mg: '1', ug: '0.001' };

function milligramsOf({ value, code }: Quantity): string | undefined {
  const factor = perMg[code];
  return factor === undefined ? undefined : String(Number(value) * Number(factor));
}

const total = (mg: readonly string[]): Quantity => ({
  value: String(mg.reduce((sum, one) => sum + Number(one), 0)),
  unit: 'mg',
  code: 'mg',
});

const inUnit = (mg: string, { unit, code }: Quantity): Quantity => ({
  value: String(Number((Number(mg) / Number(perMg[code] ?? '1')).toPrecision(12))),
  unit,
  code,
});

/** How far in, of a line that is cut or measured to fit. */
const depth: Claim = (spot, { record }) => {
  const cut = /\bcut (?:to|at)\s*$/i.test(spot.before) && spot.told.event?.do === 'cut';
  const way = spot.told.event?.do === 'measure' && /\b(?:cavoatrial|atrium|cava)\b/i.test(spot.after);
  if (dimensionOf(spot) !== 'length' || (!cut && !way)) return undefined;
  return [
    ...(record.events ?? []).flatMap(({ depth: inside, device }, i) =>
      way || device === spot.told.event?.device ? at(inside, `events[${i}].depth`) : [],
    ),
    ...entriesOf(record.left).flatMap(({ depth: inside }, i) => at(inside, `left[${i}].depth`)),
  ];
};

/** The first that knows what a figure is about speaks; the narrower ones come first. */
export const claims: readonly Claim[] = [
  gradient,
  narrowing,
  opened,
  recordedSizes,
  contrast,
  drained,
  injected,
  distended,
  dose,
  body,
  drug,
  depth,
];
