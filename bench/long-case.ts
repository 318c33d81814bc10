/** Made-up case records of any length, the same for the same numbers. */

/** mulberry32: small, even enough, and the same case for the same seed. */
export function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Fields = Record<string, unknown>;

/** How one kind of device is used from the table to its end: events without their time. */
interface Life {
  readonly entry: Fields;
  readonly events: (key: string, number: number) => readonly Fields[];
  readonly left?: Fields;
}

const target = (number: number) => `t${number % 8}`;

/** Eleven devices with 22 events: one device for each two. */
const lives: readonly Life[] = [
  {
    entry: { kind: 'guidewire', maker: 'Fable Guidewires', diameter: '0.035 in', length: '180 cm' },
    events: key => [
      { do: 'insert', device: key, through: 'sheath', into: 'right renal artery' },
      { do: 'remove', device: key, through: 'sheath', state: 'intact' },
    ],
  },
  {
    entry: {
      kind: 'angioplasty balloon',
      maker: 'Pretend Balloons',
      size: '5 mm x 40 mm',
      ratedPressure: '14 atm',
    },
    events: (key, number) => [
      { do: 'insert', device: key, through: 'sheath', across: target(number) },
      { do: 'inflate', device: key, target: target(number), pressure: '10 atm', duration: '60 s' },
      { do: 'deflate', device: key, target: target(number) },
      { do: 'remove', device: key, through: 'sheath', state: 'intact' },
    ],
  },
  {
    entry: { kind: 'detachable coil', maker: 'Sham Embolics', size: '5 mm x 15 cm', implant: 'yes' },
    events: (key, number) => [
      { do: 'detach', device: key, target: target(number), result: `coil ${number} well packed` },
    ],
    left: { purpose: 'intended', site: 'Lower branch of the right renal artery' },
  },
  {
    entry: {
      kind: 'microcatheter',
      maker: 'Makebelieve Catheters',
      size: '2.4 Fr x 130 cm',
      takesWire: '0.018 in',
    },
    events: (key, number) => [
      { do: 'insert', device: key, through: 'sheath', into: 'lower segmental branch' },
      { do: 'inject', device: key, agent: 'iodixanol', volume: '4 mL', result: `run ${number}: no leak` },
      { do: 'remove', device: key, state: 'intact' },
    ],
  },
  {
    entry: { kind: 'vascular stent', maker: 'Sham Stents', size: '6 mm x 40 mm', implant: 'yes' },
    events: (key, number) => [
      { do: 'insert', device: key, through: 'sheath', across: target(number) },
      { do: 'deploy', device: key, target: target(number), result: 'no residual stenosis' },
    ],
    left: { purpose: 'intended', site: 'Right renal artery' },
  },
  {
    entry: { kind: 'detachable coil', maker: 'Sham Embolics', size: '4 mm x 8 cm', implant: 'yes' },
    events: (key, number) => [{ do: 'detach', device: key, target: target(number) }],
    left: { purpose: 'intended', site: 'Lower branch of the right renal artery' },
  },
  {
    entry: { kind: 'access needle', maker: 'Imaginary Needles', size: '18 G x 7 cm' },
    events: (key, number) => [
      { do: 'puncture', device: key, access: `a${number % 4}`, guidance: 'ultrasound' },
      { do: 'remove', device: key, state: 'intact' },
    ],
  },
  {
    entry: { kind: 'angiographic catheter', maker: 'Makebelieve Catheters', size: '5 Fr x 65 cm' },
    events: key => [
      { do: 'insert', device: key, through: 'sheath', into: 'abdominal aorta' },
      { do: 'withdraw', device: key, into: 'external iliac artery' },
      { do: 'remove', device: key, state: 'intact' },
    ],
  },
  {
    entry: { kind: 'detachable coil', maker: 'Sham Embolics', size: '6 mm x 20 cm', use: 'unopened' },
    events: () => [],
  },
  {
    entry: {
      kind: 'drainage catheter',
      maker: 'Makebelieve Catheters',
      size: '8.5 Fr x 25 cm',
      parts: { lock: { kind: 'retention thread' } },
    },
    events: (key, number) => [
      { do: 'insert', device: key, into: `collection ${(number % 3) + 1}`, target: target(number) },
      { do: 'lock', device: key, part: 'lock' },
    ],
    left: {
      purpose: 'temporary',
      set: 'free drainage',
      fixedBy: 'suture',
      until: { condition: 'below 10 mL a day' },
    },
  },
  {
    entry: { kind: 'snare', maker: 'Sham Snares', length: '120 cm' },
    events: key => [
      { do: 'insert', device: key, through: 'sheath' },
      { do: 'remove', device: key, state: 'intact' },
    ],
  },
];

/** Clock time of one of many events over ten hours. */
function clock(index: number, of: number): string {
  const minute = 8 * 60 + Math.floor((index * 600) / Math.max(1, of));
  return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}

/** The most devices that one record may have (src/record/bounds.ts). */
const MOST_DEVICES = 500;

/**
 * A case with so many events and one device for each two, as long as a record may have them, as JSON. With a seed, events are taken out, doubled, moved and
 * pointed at other devices: what tired people record.
 */
export function longCase(events: number, seed?: number): string {
  const devices: Fields = {
    sheath: { kind: 'introducer sheath', maker: 'Pretend Sheaths', size: '6 Fr x 11 cm', takes: '6 Fr' },
  };
  let told: Fields[] = [{ do: 'insert', device: 'sheath', access: 'a0', into: 'right femoral artery' }];
  const left: Fields[] = [];
  for (let number = 1; told.length < events - 1; number += 1) {
    if (number >= MOST_DEVICES) {
      told.push({ do: 'flush', device: 'sheath', result: `flush ${number}` });
      continue;
    }
    const life = lives[(number - 1) % lives.length] as Life;
    const key = `d${number}`;
    devices[key] = {
      ...life.entry,
      ...(life.left && { label: `(01)09520007000489(17)270331(10)L${number}` }),
    };
    told.push(...life.events(key, number));
    if (life.left) left.push({ device: key, ...life.left });
  }
  told.push({ do: 'remove', device: 'sheath', state: 'intact' });
  if (seed !== undefined) {
    for (let number = 9; devices[`d${number}`]; number += 9)
      devices[`d${number}`] = { ...(devices[`d${number}`] as Fields), carried };
    told = disturbed(told, Object.keys(devices), random(seed));
  }
  return JSON.stringify({
    ...frame,
    devices,
    events: told.map((event, index) => ({ at: clock(index, told.length), ...event })),
    left,
  });
}

const carried: Fields = { date: '2024-01-05', site: 'Right kidney' };

const verbs = [
  'advance',
  'withdraw',
  'exchange',
  'reposition',
  'capture',
  'retrieve',
  'cut',
  'fracture',
  'lock',
  'unlock',
  'aspirate',
  'attempt',
  'cross',
  'open',
  'discard',
  'lose',
  'count',
  'note',
  'remove',
  'insert',
  'flush',
  'measure',
];

function disturbed(told: readonly Fields[], keys: readonly string[], next: () => number): Fields[] {
  const any = <T>(list: readonly T[]) => list[Math.floor(next() * list.length)] as T;
  return told.flatMap(event => {
    const roll = next();
    if (roll < 0.05) return [];
    if (roll < 0.08) return [event, event];
    if (roll < 0.12) return [{ ...event, over: any(keys) }];
    if (roll < 0.16) return [{ ...event, through: any(keys) }];
    if (roll < 0.2) return [event, { do: any(verbs), device: any(keys) }];
    if (roll < 0.23) return [{ ...event, with: [any(keys), any(keys)] }];
    if (roll < 0.26)
      return [event, { do: 'exchange', device: any(keys), replaces: any(keys), over: any(keys) }];
    if (roll < 0.29)
      return [event, { do: any(['attempt', 'capture', 'retrieve']), device: any(keys), target: any(keys) }];
    if (roll < 0.32)
      return [{ do: any(['note', 'image', 'measure']), result: `${any(keys)} seen again` }, event];
    return [event];
  });
}

const frame: Fields = {
  casetally: 1,
  case: {
    id: 'WB-LONG-1',
    status: 'completed',
    date: '2024-03-05',
    timeZone: 'Europe/Lisbon',
    started: '07:55',
    ended: '18:10',
    kind: 'embolisation',
    procedure: 'Embolisation and stenting of the right renal artery',
    urgency: 'elective',
    location: { name: 'Angiography 2' },
    organization: { name: 'Willow Bluff Medical Center', phone: '+1 312 555 0150' },
  },
  patient: {
    identifiers: [{ system: 'https://ids.willow-bluff.example/mrn', value: '4410900' }],
    name: 'Perpetua Quillfeather',
    birthDate: '1961-02-14',
    sex: 'female',
    weight: '71 kg',
    height: '1.66 m',
  },
  team: [
    { key: 'op', role: 'operator', name: 'Dr Emmerich Tallgrass' },
    { key: 'nurse', role: 'nurse', name: 'Boone Castellaw' },
  ],
  indication: { text: 'Bleeding angiomyolipoma of the right kidney.' },
  before: {
    allergies: 'none',
    labs: [
      { what: 'haemoglobin', value: '11.9 g/dL', at: '2024-03-05T06:10' },
      { what: 'INR', value: '1.1', at: '2024-03-05T06:10' },
      { what: 'creatinine', value: '0.9 mg/dL', at: '2024-03-05T06:10' },
    ],
    anticoagulants: 'none',
    consent: { status: 'given', by: 'the patient', takenBy: 'op', at: '2024-03-05T07:15' },
  },
  sedation: 'none',
  drugs: [
    {
      drug: 'Lidocaine',
      dose: '10 mL',
      strength: '1 %',
      route: 'local infiltration',
      at: '07:58',
      by: 'op',
      for: 'local anaesthesia',
    },
  ],
  access: Array.from({ length: 4 }, (_unused, i) => ({
    key: `a${i}`,
    site: 'Right common femoral artery',
    side: 'right',
    closure: 'manual compression for 15 min',
  })),
  targets: Object.fromEntries(
    Array.from({ length: 8 }, (_unused, i) => [
      `t${i}`,
      {
        what: `Segment ${i + 1} of the right renal artery`,
        side: 'right',
        diameter: '5 mm',
        success: 'successful',
      },
    ]),
  ),
  contrast: [{ agent: 'iodixanol', concentration: '320 mg/mL', volume: '80 mL', route: 'intra-arterial' }],
  radiation: { kermaAreaProduct: '110 Gy·cm2', airKerma: '900 mGy', fluoroscopyTime: '22.1 min' },
  specimens: 'none',
  complications: 'none',
  outcome: { overall: 'successful', condition: 'Comfortable', disposition: 'Ward 4', bloodLoss: '20 mL' },
  aftercare: [
    {
      key: 'drains',
      do: 'Take the drains out when below 10 mL a day',
      due: '5 days',
      by: 'ward',
      call: 'radiology if one blocks',
    },
    { key: 'look', do: 'Check the groin', due: '1 day', by: 'ward', call: 'radiology if it swells' },
  ],
  advice: { contact: 'Interventional suite +1 312 555 0151' },
  conclusion: 'Bleeding stopped.',
  report: { status: 'final', version: 1, author: 'op', signedAt: '18:30' },
};

/** The same under a number of its own, of a patient of its own. */
export const numberedCase = (number: number, length: number): string =>
  longCase(length)
    .replace('WB-LONG-1', `WB-BULK-${number}`)
    .replace('4410900', `${5_000_000 + number}`);
