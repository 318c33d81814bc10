import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labCodes } from '../../src/fhir/codes/clinical.js';
import { deviceActionCodes, deviceKindCodes } from '../../src/fhir/codes/devices.js';
import { drugCodes } from '../../src/fhir/codes/medication.js';
import { caseKindCodes, placementCodes, removalCodes } from '../../src/fhir/codes/procedures.js';
import { analyteNamed, analytes } from '../../src/trade/analytes.js';
import { caseKindNamed, caseKinds, sameCaseKind } from '../../src/trade/cases/table.js';
import { conditionsIn } from '../../src/trade/conditions.js';
import { deviceKinds, deviceTable } from '../../src/trade/devices/table.js';
import { traitsOf } from '../../src/trade/devices/traits.js';
import { allergens, allergenTable } from '../../src/trade/drugs/allergens.js';
import { drugKey, drugTable, elementOf } from '../../src/trade/drugs/table.js';
import { accessArtery, isClosed, looksAtSkin } from '../../src/trade/places.js';

const namesOf = <T extends { name: string; aliases: readonly string[] }>(rows: readonly T[]) =>
  rows.flatMap(row => [row.name, ...row.aliases].map(name => ({ name, row })));

/** Ways in which one person writes what another wrote otherwise. */
const ways: readonly (readonly [string, (name: string) => string])[] = [
  ['as it is', name => name],
  ['upper case', name => name.toUpperCase()],
  ['hyphens for blanks', name => name.replaceAll(' ', '-')],
  ['blanks for hyphens', name => name.replaceAll('-', ' ')],
  ['blanks around', name => `  ${name} `],
];

describe.each([
  ['kinds of device', namesOf(deviceKinds), (text: string) => deviceTable.find(text)?.row],
  ['kinds of case', namesOf(caseKinds), (text: string) => caseKindNamed(text)?.rows[0]],
  ['drugs', namesOf(drugTable.rows), (text: string) => drugTable.find(text)?.row],
  ['allergens', namesOf(allergens), (text: string) => allergenTable.find(text)?.row],
  ['analytes', namesOf(analytes), (text: string) => analyteNamed(text)],
] as const)('%s', (_table, names, find) => {
  it.each(ways)('are found by every name, %s', (_way, written) => {
    const lost = names.filter(({ name, row }) => find(written(name)) !== row);
    expect(lost.map(({ name }) => written(name))).toEqual([]);
  });
});

describe('how many there are', () => {
  it('is enough for the whole field', () => {
    expect(deviceKinds.length).toBeGreaterThanOrEqual(200);
    expect(caseKinds.length).toBeGreaterThanOrEqual(120);
  });

  it('has each name of a row once', () => {
    for (const rows of [deviceKinds, caseKinds, drugTable.rows, allergens, analytes]) {
      const names = rows.map(({ name }) => name.toLowerCase());
      expect(names.filter((name, place) => names.indexOf(name) !== place)).toEqual([]);
    }
  });

  it('gives codes to rows that exist', () => {
    const devices = new Set(deviceKinds.map(({ name }) => name));
    const cases = new Set(caseKinds.map(({ name }) => name));
    const drugs = new Set(drugTable.rows.map(({ name }) => name));
    const measured = new Set(analytes.map(({ name }) => name));
    // The last one is a site's, or an arterial sheath's: none is left over.
    const unknown = [
      ...[deviceKindCodes, placementCodes, removalCodes].flatMap(table =>
        Object.keys(table).filter(name => !devices.has(name)),
      ),
      ...Object.keys(caseKindCodes).filter(name => !cases.has(name)),
      ...Object.keys(labCodes).filter(name => !measured.has(name)),
      ...Object.keys(drugCodes).filter(name => !drugs.has(name)),
    ];
    expect(unknown).toEqual([]);
    expect(Object.keys(deviceActionCodes)).toContain('insertion');
  });
});

// Spelling: common practice, no source.
describe('devices as people write them', () => {
  it.each([
    ['double pigtail ureteral stent', 'double-J stent'],
    ['Ureteral stents', 'ureteric stent'],
    ['stent, ureteric, double-J', 'double-J stent'],
    ['left double-J stent', 'double-J stent'],
    ['8.5 Fr locking pigtail nephrostomy catheter', 'locking nephrostomy catheter'],
    ['percutaneous renal nephrostomy tube', 'nephrostomy catheter'],
    ['Guide wires', 'guidewire'],
    ['esophageal stents', 'oesophageal stent'],
    ['embolization coils', 'coil'],
    ['haemostatic valve', 'haemostatic valve'],
    ['hemostatic valves', 'haemostatic valve'],
    ['tunneled hemodialysis catheter', 'tunnelled dialysis catheter'],
    ['IVC-filter', 'caval filter'],
    ['balloon catheter 6 x 40 mm', 'balloon catheter'],
    ['21 G micropuncture needle', 'fine access needle'],
    ['4 Fr micropuncture set', 'micro-access set'],
    ['Micropuncture sheath', 'micro-access set'],
    ['micropuncture guidewire', 'access wire'],
  ])('%s is a %s', (written, name) => {
    expect(deviceTable.find(written)?.row.name).toBe(name);
  });

  it.each([
    'not peelable sheath',
    'non-peelable sheath',
    'stent without delivery system',
    'catheter securement strap',
    'needle counter',
    'wire cutter',
    'thing',
    'constructor',
    '__proto__',
    '',
    '   ',
    '8 Fr',
    'drain or stent',
  ])("reads nothing into '%s'", written => {
    expect(deviceTable.find(written)).toBeUndefined();
  });

  it('reads traits from whole phrases alone', () => {
    const row = deviceTable.find('introducer sheath')?.row;
    if (!row) throw new Error('no row');
    const traits = (description: string) => [...traitsOf(row, 'introducer sheath', description)];
    expect(traits('peel-away')).toEqual(['peelable']);
    expect(traits('hydrophilic, splittable')).toEqual(['peelable']);
    expect(traits('not peelable')).toEqual([]);
    expect(traits('non-locking, does not peel away')).toEqual([]);
    expect(traits('thin wall')).toEqual(['thin wall']);
    expect(traits('not thin wall')).toEqual([]);
  });
});

describe('cases as people write them', () => {
  it.each([
    ['Percutaneous nephrostomy, right', ['nephrostomy']],
    ['renal biopsy', ['kidney biopsy']],
    ['biopsy of the transplant kidney', ['kidney biopsy']],
    ['transplant nephrostomy exchange', ['nephrostomy exchange']],
    ['CT-guided biopsy of the left lung', ['lung biopsy']],
    ['Transjugular liver biopsy', ['transjugular liver biopsy']],
    ['embolization', ['embolisation']],
    ['tunneled line placement', ['tunnelled catheter insertion']],
    ['removal of nephrostomy tube', ['nephrostomy removal']],
    ['dialysis-circuit angioplasty', ['dialysis circuit angioplasty']],
    ['nephrostomy and antegrade ureteric stent', ['nephrostomy', 'ureteric stent']],
    ['nephrostomy + liver biopsy', ['nephrostomy', 'liver biopsy']],
    ['liver biopsy for suspected lymphoma', ['liver biopsy']],
  ])('%s', (written, names) => {
    expect(caseKindNamed(written)?.rows.map(({ name }) => name)).toEqual(names);
  });

  it.each([
    'not a biopsy',
    'pre-dialysis fistula planning',
    'dialysis fistula being planned',
    'nephrostomy avoided',
    'failed nephrostomy',
    'no biopsy',
    'something new',
    'constructor',
  ])("reads nothing into '%s'", written => {
    expect(caseKindNamed(written)).toBeUndefined();
  });

  it('tells kinds apart', () => {
    expect(sameCaseKind('Renal biopsy', 'biopsy of kidney')).toBe(true);
    expect(sameCaseKind('liver biopsy', 'transjugular liver biopsy')).toBe(false);
    expect(sameCaseKind('something new', 'New something')).toBe(true);
    expect(sameCaseKind('something new', 'something else')).toBe(false);
  });
});

describe('free text never flips a rule', () => {
  it.each([
    ['haemodialysis', 'dialysis'],
    ['End-stage renal disease on hemodialysis since 2019', 'dialysis'],
    ['on dialysis, three times a week', 'dialysis'],
    ['Cirrhosis of the liver', 'chronic liver disease'],
    ['Child-Pugh B cirrhosis with ascites', 'chronic liver disease'],
    ['HIT', 'heparin-induced thrombocytopenia'],
  ])('%s names %s', (text, name) => {
    expect(conditionsIn(text)).toContain(name);
  });

  it.each([
    'pre-dialysis',
    'not on dialysis',
    'CKD 5, not yet on dialysis',
    'Dialysis fistula being planned',
    'Cephalic arch stenosis of a dialysis fistula',
    'previous dialysis, recovered',
    'no cirrhosis',
    'cirrhosis excluded',
    'father had cirrhosis',
    'HIT excluded',
  ])("'%s' names nothing", text => {
    expect(conditionsIn(text)).toEqual([]);
  });

  it('knows the artery that access goes through', () => {
    expect(
      ['Right common femoral artery', 'left CFA', 'femoral artery, antegrade'].map(accessArtery),
    ).toEqual(['femoral', 'femoral', 'femoral']);
    expect(accessArtery('Left radial artery')).toBe('radial');
    expect(
      ['Right femoral vein', 'femoral vein beside the artery', 'not the radial artery'].map(accessArtery),
    ).toEqual([undefined, undefined, undefined]);
  });

  it('knows a closed drain', () => {
    expect(['capped', 'Clamped', 'flushed, then capped', 'clamped overnight'].map(isClosed)).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect(['unclamped', 'not capped', 'free drainage', undefined].map(isClosed)).toEqual([
      false,
      false,
      false,
      false,
    ]);
  });

  it('knows a look at the skin', () => {
    expect(looksAtSkin('Look at the skin where the beam entered')).toBe(true);
    expect(looksAtSkin('Check the skin of the back')).toBe(true);
    expect(looksAtSkin('No skin check needed')).toBe(false);
    expect(looksAtSkin('Remove the skin suture')).toBe(false);
  });
});

// Names: WHO lists of international non-proprietary names and British approved names; from memory.
describe('drugs', () => {
  it.each([
    ['Lignocaine 2 %', 'lidocaine'],
    ['lidocaine 1% with adrenaline 1:200000', 'adrenaline + lidocaine'],
    ['lidocaine without adrenaline', 'lidocaine'],
    ['Enoxaparin sodium', 'enoxaparin'],
    ['heparinised saline 5 IU/mL', 'heparin'],
    ['bupivacaine/lidocaine', 'bupivacaine + lidocaine'],
    ['Epinephrine', 'adrenaline'],
    ['unheard of', 'unheard of'],
  ])('%s is %s', (text, key) => {
    expect(drugKey(text)).toBe(key);
  });

  it('knows gas from contrast', () => {
    expect(['CO₂', 'carbon dioxide', 'air', 'normal saline'].map(elementOf)).toEqual([
      'none',
      'none',
      'none',
      'none',
    ]);
    expect(elementOf('not iohexol')).toBeUndefined();
  });
});

it('finds something or nothing in any text, and never throws', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), text => {
      for (const found of [
        deviceTable.find(text)?.row.name,
        caseKindNamed(text)?.rows[0]?.name,
        drugKey(text),
      ])
        expect(found === undefined || typeof found === 'string').toBe(true);
    }),
  );
});
