/**
 * Facts of the GS1 application identifiers, from the GS1 Barcode Syntax Dictionary (GS1, Apache-2.0;
 * repository gs1/gs1-syntax-dictionary). One line an identifier or range:
 * `identifiers format [@check] [req=…] [ex=…] # name`
 * N digits, X character set 82, Y character set 39;
 * `..` up to; `[ ]` optional. `req` is repeated when each of several sets must be met; `n` stands for any digit, `n5` for 0 to 5.
 */
const lines = `
00 N18@csum # logistic unit
01 N14@csum ex=02,255,37 # device identifier (GTIN)
02 N14@csum req=37 # contained trade items
03 N14@csum ex=01,02,37 # made-to-order trade item
10 X..20 req=01,02,03,8006,8026 # lot
11 N6@yymmd0 req=01,02,03,8006,8026 # production date
12 N6@yymmd0 req=8020 # due date
13 N6@yymmd0 req=01,02,03,8006,8026 # packaging date
15 N6@yymmd0 req=01,02,03,8006,8026 # best-before date
16 N6@yymmd0 req=01,02,03,8006,8026 # sell-by date
17 N6@yymmd0 req=01,02,03,255,8006,8026 # expiry date
20 N2 req=01,02,03,8006,8026 # variant
21 X..20 req=01,03,8006 ex=235 # serial number
22 X..20 req=01 # consumer product variant
235 X..28 req=01 # third-party serial number
240 X..30 req=01,02,03,8006,8026 # additional product identification
241 X..30 req=01,02,03,8006,8026 # customer part number
242 N..6 req=01,02,8006,8026 # made-to-order variation
243 X..20 req=01 # packaging component number
250 X..30 req=01,8006 req=21 # secondary serial number
251 X..30 req=01,8006 # reference to source
253 N13@csum [X..17] # document type
254 X..20 req=414 # location extension
255 N13@csum [N..12] ex=01,02,415,8006,8020,8026 # coupon
30 N..8 req=01,02 # count of items
310n5-316n5 N6 req=01,02 # measure
320n5-329n5 N6 req=01,02 # measure
330n5-337n5 N6 req=00,01 # measure
340n5-349n5 N6 req=00,01 # measure
350n5-357n5 N6 req=00,01,02 # measure
360n5-369n5 N6 req=00,01,02 # measure
37 N..8 req=00 req=02,8026 # count of contained items
390n N..15 req=255,8020 # amount
391n N3 N..15 req=8020 # amount
392n N..15 req=01 # price
393n N3 N..15 req=30,31nn,32nn,35nn,36nn # price
394n3 N4 req=255 # discount
395n5 N6 req=30,31nn,32nn,35nn,36nn # price per unit
400 X..30 # purchase order
401 X..30 # consignment
402 N17@csum # shipment
403 X..30 req=00 # routing code
410-413 N13@csum # location
414 N13@csum # location number
415 N13@csum req=8020 # invoicing party
416-417 N13@csum # location
420 X..20 ex=421 # postal code
421 N3 X..9 # postal code with country
422 N3 req=01,02,8006,8026 ex=426 # country of origin
423 N3 [N..12] req=01,02 ex=426 # countries of processing
424 N3 req=01,02 ex=426 # country of processing
425 N3 [N..12] req=01,02 ex=426 # countries of disassembly
426 N3 req=01,02 # country of full processing
427 X..3 req=01,02 # origin subdivision
4300-4301 X..35 req=00 # delivery detail
4302-4306 X..70 req=00 # delivery detail
4307 X2 req=00 # delivery country
4308 X..30 req=00 # delivery telephone
4309 N20 req=00 # delivery position
4310-4311 X..35 req=00 # return detail
4312-4316 X..70 req=00 # return detail
4317 X2 req=00 # return country
4318 X..20 req=00 # return postal code
4319 X..30 req=00 # return telephone
4320 X..35 req=00 # service description
4321-4323 N1@yesno req=00 # delivery flag
4324-4325 N6@yymmd0 N4 req=00 # delivery time
4326 N6@yymmdd req=00 # release date
4330-4333 N6 [X1] req=00 # temperature limit
7001 N13 req=01,02,8006,8026 # stock number
7002 X..30 req=01,02 # cut classification
7003 N6@yymmdd N4 req=01,02 # expiry date and time
7004 N..4 req=01 req=10 # active potency
7005 X..12 req=01,02 # catch area
7006 N6@yymmdd req=01,02 # first freezing date
7007 N6@yymmdd [N6] req=01,02 # harvest date
7008 X..3 req=01,02 # species
7009 X..10 req=01,02 # gear type
7010 X..2 req=01,02 # production method
7011 N6@yymmdd [N4] req=01,02 # test-by date
7020 X..20 req=01,8006 req=416 # refurbishment lot
7021 X..20 req=01,8006 # functional status
7022 X..20 req=7021 # revision status
7023 X..30 # assembly
703n N3 X..27 req=01,02 # processor
7040 N1 X3 # unique identification with extensions
7041 X..4 req=00 # freight unit type
710-717 X..20 req=01 # national reimbursement number
723n X2 X..28 req=01,8004 # certification reference
7240 X..20 req=01,8006 # protocol
7241 N2 req=8017,8018 # carrier type
7242 X..25 req=8017,8018 # version control number
7250 N8 req=8018 # date of birth
7251 N12 req=8018 # time of birth
7252 N1 req=8018 # sex
7253-7254 X..40 req=8017,8018 # name
7255 X..10 req=8017,8018 # name suffix
7256 X..90 req=8017,8018 # full name
7257 X..70 req=8018 # address
7258 X3 req=8018 # birth sequence
7259 X..40 req=8018 # baby
8001 N14 req=01 # roll dimensions
8002 X..20 # mobile telephone
8003 N14@csum [X..16] # returnable asset
8004 X..30 # individual asset
8005 N6 req=01,02 # price per unit
8006 N14@csum N4 ex=01,37 # piece of a trade item
8007 X..34 req=415 # bank account
8008 N6@yymmdd N2 [N..4] req=01,02 # production date and time
8009 X..50 req=00,01 # sensor data
8010 Y..30 # component
8011 N..12 req=8010 # component serial number
8012 X..20 req=01,8006 # software version
8013 X..25 # global model number
8014 X..25 req=01 # registration identifier of a made-to-order device
8017 N18@csum ex=8018 # service provider
8018 N18@csum ex=8017 # service recipient
8019 N..10 req=8017,8018 # service instance
8020 X..25 req=415 # payment slip
8026 N14@csum N4 req=37 ex=02,8006 # contained pieces
8110 X..70 # coupon
8111 N4 req=255 # points
8112 X..70 # coupon
8200 X..70 req=01 # product address
90 X..30 # internal
91-99 X..90 # internal
`;

/** One component of an element's value. */
export interface Component {
  readonly type: 'N' | 'X' | 'Y';
  readonly min: number;
  readonly max: number;
  readonly optional: boolean;
  readonly check?: 'csum' | 'yymmd0' | 'yymmdd' | 'yesno';
}

/** What the standard says of one application identifier. */
export interface Gs1Entry {
  readonly ai: string;
  readonly name: string;
  readonly components: readonly Component[];
  readonly min: number;
  readonly max: number;
  /** Each set: at least one of these patterns must be on the label too. */
  readonly requires: readonly (readonly string[])[];
  readonly excludes: readonly string[];
}

const checks = ['csum', 'yymmd0', 'yymmdd', 'yesno'] as const;

function component(text: string): Component {
  const max = Number.parseInt(text.replace(/\D+/, ''), 10);
  const check = checks.find(name => text.endsWith(name));
  return {
    type: text.includes('N') ? 'N' : text.includes('Y') ? 'Y' : 'X',
    min: text.includes('..') ? 1 : max,
    max,
    optional: text.startsWith('['),
    ...(check !== undefined && { check }),
  };
}

/** `310n5-316n5` and `410-413` spelled out: the last digit runs from 0 to the one after n, or to 9. */
function spelledOut(text: string): string[] {
  const from = text.replace(/-.*/, '');
  const [first, last] = [from, text.replace(/.*-/, '')].map(end => end.replace(/n.*/, ''));
  const length = Number(from.replace(/.*n/, '') || 9) + 1;
  const tails = from.includes('n') ? Array.from({ length }, (_, digit) => `${digit}`) : [''];
  const out: string[] = [];
  for (let n = Number(first); n <= Number(last); n += 1) {
    out.push(...tails.map(tail => `${n}${tail}`.padStart(2, '0')));
  }
  return out;
}

function entriesOf(line: string): Gs1Entry[] {
  const words = line.replace(/ # .*/, '').split(' ');
  const values = (key: string) =>
    words.filter(w => w.startsWith(key)).map(w => w.slice(key.length).split(','));
  const components = words.filter(w => /[NXY]/.test(w)).map(component);
  const total = (pick: (c: Component) => number) => components.reduce((sum, c) => sum + pick(c), 0);
  return spelledOut(line.replace(/ .*/, '')).map(ai => ({
    ai,
    name: line.replace(/.* # /, ''),
    components,
    min: total(c => (c.optional ? 0 : c.min)),
    max: total(c => c.max),
    requires: values('req='),
    excludes: values('ex=').flat(),
  }));
}

/** Every application identifier that is known, by its digits. */
export const gs1Table: ReadonlyMap<string, Gs1Entry> = new Map(
  lines
    .trim()
    .split('\n')
    .flatMap(entriesOf)
    .map(entry => [entry.ai, entry]),
);

/** The application identifier that `text` starts with at `from`, if any; no known one is the start of another. */
export function identifierAt(text: string, from: number): Gs1Entry | undefined {
  for (let length = 2; length <= 4; length += 1) {
    const entry = gs1Table.get(text.slice(from, from + length));
    if (entry !== undefined) return entry;
  }
  return undefined;
}

/** True when `ai` is one that a pattern such as `31nn` names; no known identifier is the start of another. */
export function matchesPattern(ai: string, pattern: string): boolean {
  return [...pattern].every((c, i) => c === 'n' || c === ai[i]);
}
