import { z } from 'zod';
import {
  type Coded,
  coded,
  count,
  identifier,
  key,
  noneOr,
  quantity,
  scan,
  size,
  type TimeFields,
  text,
  yesNo,
} from './fields.js';
import { side } from './places.js';

/** What a device does, for devices whose kind Casetally does not know. */
export const deviceFamilies = [
  'needle',
  'guidewire',
  'catheter',
  'sheath',
  'dilator',
  'balloon',
  'stent',
  'drain',
  'filter',
  'embolic',
  'retrieval',
  'closure',
  'anchor',
  'tube',
  'accessory',
] as const;

/** Part of a device that is followed on its own. */
const part = z.strictObject({
  kind: text.describe('retention thread, tether, hook, hub, peel-away half, tip, fragment …'),
  count: count.optional(),
  length: quantity('40 cm', 'length').optional(),
});

/** Something with a place that may have a side. */
interface Sided {
  readonly site?: Coded | undefined;
  readonly side?: z.output<typeof side> | undefined;
}

function sideNeedsSite({ site, side: given }: Sided, context: z.RefinementCtx): void {
  if (given !== undefined && site === undefined)
    context.addIssue({ code: 'custom', path: ['site'], message: 'is missing: a side is the side of a site' });
}

/** Whoever reads the site reads its side with it, unless the words say it already. */
function withSide<T extends Sided>(entry: T): T {
  const { site, side: given } = entry;
  if (site === undefined || given === undefined || new RegExp(`\\b${given}\\b`, 'i').test(site.text))
    return entry;
  return { ...entry, site: { ...site, text: `${given} ${site.text}` } };
}

/** One device: used, wasted, or brought in from an earlier case. */
export function deviceSchema({ when }: TimeFields) {
  return z.strictObject({
    kind: text.describe('guidewire, access needle, introducer sheath, drainage catheter, ureteric stent …'),
    family: z.enum(deviceFamilies).optional().describe('Needed only for a kind that Casetally does not know'),
    description: text.optional().describe('Tip shape, coating, stiffness: what a colleague would ask'),
    codes: z.array(z.strictObject({ system: text, code: text, display: text.optional() })).optional(),
    maker: text.optional(),
    model: text.optional(),
    reference: text.optional().describe('Catalogue number'),
    size: size.optional(),
    diameter: quantity('0.035 in', 'length', 'calibre').optional(),
    length: quantity('145 cm', 'length').optional(),
    takesWire: quantity('0.038 in', 'length').optional().describe('Largest wire that its lumen takes'),
    takes: quantity('6 Fr', 'calibre', 'length').optional().describe('Largest device that passes through it'),
    ratedPressure: quantity('14 atm', 'pressure').optional(),
    material: text.optional(),
    concentration: text.optional(),
    count: count.optional().describe('How many alike (coils, vials, needles); 1 when absent'),
    implant: yesNo.optional(),
    mri: text.optional().describe('MRI safety statement from the label or instructions'),
    label: scan.optional().describe('The barcode as scanned, or the text under it'),
    udi: text.optional().describe('Device identifier (DI) alone, where no full label is at hand'),
    lot: text.optional(),
    serial: text.optional(),
    expires: when.optional(),
    manufactured: when.optional(),
    identifier: identifier.optional(),
    use: z.enum(['used', 'opened unused', 'unopened', 'failed']).optional().describe('used when absent'),
    carried: z
      .strictObject({
        case: identifier.optional().describe('The case in which it was placed'),
        date: when.optional(),
        use: text
          .optional()
          .describe(
            'Name of its use in the register of devices, as casetally register inside prints it: CASE/DEVICE',
          ),
        note: text.optional(),
        site: coded.optional().describe('Where it lies'),
        side: side.optional().describe('Side of the site'),
      })
      .superRefine(sideNeedsSite)
      .transform(withSide)
      .optional()
      .describe('It was already in the patient before this case'),
    parts: z.record(key, part).optional(),
    note: text.optional(),
  });
}

/** What happens at a point of the timeline. */
export const eventVerbs = [
  'puncture',
  'insert',
  'advance',
  'withdraw',
  'remove',
  'exchange',
  'reposition',
  'inflate',
  'deflate',
  'deploy',
  'detach',
  'capture',
  'retrieve',
  'cut',
  'fracture',
  'peel away',
  'lock',
  'unlock',
  'release',
  'set',
  'flush',
  'aspirate',
  'sample',
  'inject',
  'image',
  'measure',
  'attempt',
  'cross',
  'open',
  'discard',
  'lose',
  'count',
  'ablate',
  'tunnel',
  'compress',
  'resuscitate',
  'hand over',
  'note',
] as const;

/** One time-ordered thing that happened. */
export function eventSchema({ moment }: TimeFields) {
  return z.strictObject({
    at: moment,
    do: z.enum(eventVerbs),
    device: key.optional(),
    part: key.optional().describe('A part of the device, under its key'),
    replaces: key.optional().describe('In an exchange: the device that came out'),
    with: z.array(key).optional().describe('Devices that moved together with it'),
    over: key.optional().describe('The wire or catheter it ran over'),
    through: key.optional().describe('The needle, sheath or catheter it ran through'),
    into: coded.optional().describe('Vessel, duct or cavity entered'),
    across: key.optional().describe('Target that it lies across'),
    target: key.optional(),
    access: key.optional(),
    by: key.optional().describe('Who did it; of hand over, who took over'),
    guidance: z
      .enum([
        'ultrasound',
        'fluoroscopy',
        'computed tomography',
        'cone-beam computed tomography',
        'magnetic resonance',
        'endoscopy',
        'palpation',
        'none',
      ])
      .optional(),
    to: text.optional().describe('The state it was set to: free drainage, clamped, locked, capped …'),
    fixedBy: text.optional().describe('Suture, adhesive device, none …'),
    pressure: quantity('12 atm', 'pressure').optional(),
    diameter: quantity('6 mm', 'length').optional(),
    depth: quantity('12 cm', 'length').optional().describe('Length inside the patient'),
    duration: quantity('60 s', 'duration').optional(),
    volume: quantity('20 mL', 'volume').optional(),
    agent: text.optional().describe('Contrast or drug injected'),
    result: text.optional(),
    state: z.enum(['intact', 'part missing', 'damaged']).optional().describe('What came out, as inspected'),
    crossed: yesNo.optional(),
    pieces: count.optional().describe('Pieces after a cut or a break; 2 when absent'),
    count: count.optional().describe('How many of a device that is counted'),
    specimen: key.optional(),
    image: key.optional(),
    note: text.optional(),
  });
}

/**
 * A device, or a part of one, that cannot be found: neither removed nor known to be inside. What was done to find it
 * and who was told is what makes it more than an open question.
 */
export function missingSchema({ when }: TimeFields) {
  return z.strictObject({
    device: key,
    part: key.optional(),
    count: count
      .optional()
      .describe('How many of a counted device cannot be found; all that are open when absent'),
    searched: text.describe('Where and how it was looked for: field, table, floor, waste, drapes'),
    by: key.optional().describe('Team key of who searched'),
    imaging: text.describe('Which imaging was done to look for it, or why none was'),
    result: text.optional().describe('What the imaging shows'),
    told: text.describe('Who was told of it: the patient, the team, the risk office'),
    at: when.optional().describe('When the search ended'),
  });
}

/** One thing that is still inside, as it is typed. */
export function leftShape({ term }: TimeFields) {
  return z.strictObject({
    device: key,
    part: key.optional(),
    count: count.optional().describe('How many of a counted device stay'),
    purpose: z.enum(['intended', 'temporary', 'unintended']).optional(),
    site: coded.optional().describe('Where it lies, end to end'),
    side: side.optional().describe('Side of the site'),
    set: text.optional().describe('On free drainage, clamped, capped, flushed …'),
    depth: quantity('12 cm', 'length').optional().describe('Mark at the skin'),
    fixedBy: text.optional(),
    tip: text.optional().describe('Where the tip of a catheter or tube lies: cavoatrial junction …'),
    lock: z
      .strictObject({
        solution: text.describe('Citrate 4 %, heparin 100 IU/mL, saline …'),
        volume: quantity('1.8 mL', 'volume').optional(),
      })
      .optional()
      .describe('What a catheter is locked with'),
    until: z
      .strictObject({ condition: text.optional(), date: term.optional() })
      .optional()
      .describe('When it comes out or is changed'),
    latest: term.optional().describe('Longest it may stay: a date, or such as 12 weeks'),
    note: text.optional(),
  });
}

/** What is still inside at the end and how it is set. */
export function leftSchema(times: TimeFields) {
  return noneOr(leftShape(times).superRefine(sideNeedsSite).transform(withSide));
}
