import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { checkCase } from '../../src/pipeline/check.js';
import { type CaseEntries, registryEntries } from '../../src/registry/entry/entries.js';
import { registrySchema } from '../../src/registry/options.js';
import { siteSchema, unconfiguredSite } from '../../src/site/site.js';
import { exampleText } from '../support/examples.js';

const key = { id: 'k1', secret: Buffer.from('a secret of the test, long enough') };

// biome-ignore lint/suspicious/noExplicitAny: data of an example, to be changed at any depth
type Loose = Record<string, any>;

/** Entries of an example after a change to its data. */
function entries(file: string, change: (data: Loose) => void = () => {}, settings: object = {}): CaseEntries {
  const data: Loose = parse(exampleText(file));
  change(data);
  const { record, assessment } = checkCase(stringify(data), unconfiguredSite);
  if (!record || !assessment) throw new Error('the changed example cannot be read');
  return registryEntries(record, assessment, registrySchema.parse({ name: 'Test', ...settings }), key);
}

const action = ({ resource }: CaseEntries['entries'][number]) => resource.reasonCode?.[0]?.coding?.[0]?.code;
const contained = (entry: CaseEntries['entries'][number] | undefined, type: string): Loose =>
  entry?.resource.contained?.find(({ resourceType }) => resourceType === type) ?? {};
const extensionOf = (holder: Loose, id: string): Loose | undefined =>
  holder['extension']?.find((one: Loose) => one['url'].endsWith(`/${id}`));

describe('what a registry hears of', () => {
  it('a part that stays inside when its device came out, as retained', () => {
    const retained = entries('fractured-wire-tip.yaml').entries.filter(one => action(one) === 'retained');
    expect(retained).toHaveLength(1);
    expect(retained[0]?.resource.status).toBe('active');
    expect(extensionOf(retained[0]?.resource ?? {}, 'part-of-device')?.['valueBoolean']).toBe(true);
  });

  it('how many alike stay', () => {
    const several = entries('embolisation.yaml').entries.filter(({ resource }) =>
      extensionOf(resource, 'number-alike'),
    );
    expect(several.length).toBeGreaterThan(0);
    for (const { resource } of several)
      expect(extensionOf(resource, 'number-alike')?.['valuePositiveInt']).toBeGreaterThan(0);
  });

  it('nothing of an implant that went back on the shelf; one that was opened has no time in the patient', () => {
    const file = 'ureteric-stent-tumour.yaml';
    const add = (use: string) => (data: Loose) => {
      data['devices'].spare = {
        kind: 'ureteric stent',
        size: '6 Fr x 24 cm',
        udi: '09506000117843',
        lot: 'B7',
        use,
      };
    };
    const spare = (use: string) => entries(file, add(use)).entries.filter(one => one.device === 'spare');
    expect(spare('unopened')).toEqual([]);
    const [opened, ...more] = spare('opened unused');
    expect(more).toEqual([]);
    expect(opened && action(opened)).toBe('opened-not-used');
    expect(opened?.resource.timingPeriod).toBeUndefined();
  });

  it('that a device cannot be found, and that nobody accounts for one', () => {
    const file = 'nephrostomy-exchange-transplant.yaml';
    const unsaid = entries(file, data => {
      data['left'] = 'none';
      data['aftercare'] = [];
    });
    const open = unsaid.entries.find(one => action(one) === 'unaccounted');
    expect(open?.resource.status).toBe('active');
    expect(open?.resource.timingPeriod?.end).toBeUndefined();
  });

  it('a withdrawn report as entered in error, with the number it had', () => {
    const file = 'ureteric-stent-tumour.yaml';
    const before = entries(file);
    const after = entries(file, data => {
      data['report'].status = 'withdrawn';
      data['report'].version = 2;
      data['report'].change = { why: 'Recorded for another patient' };
    });
    const numbers = ({ entries: all }: CaseEntries) =>
      all.map(({ resource }) => resource.identifier?.[0]?.value);
    expect(numbers(after)).toEqual(numbers(before));
    expect(after.entries.map(({ resource }) => resource.status)).toEqual(
      after.entries.map(() => 'entered-in-error'),
    );
    expect(contained(after.entries[0], 'Procedure')['status']).toBe('entered-in-error');
  });

  it('each row of a counted device under a number of its own', () => {
    const { entries: all } = entries('embolisation.yaml', data => {
      const [name, device] = Object.entries<Loose>(data['devices']).find(([, d]) => d['count'] > 2) ?? [];
      if (name === undefined || device === undefined) throw new Error('the example has no counted device');
      const [line] = data['left'].filter((l: Loose) => l['device'] === name);
      line['count'] = device['count'] - 1;
      data['missing'] = [
        { device: name, count: 1, searched: 'table and drapes', imaging: 'fluoroscopy', told: 'the team' },
      ];
    });
    const numbers = all.map(({ resource }) => resource.identifier?.[0]?.value);
    expect(all.some(one => action(one) === 'not-found')).toBe(true);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
});

describe('the kind of a case', () => {
  const kinds = (kind: string) => {
    const made = entries('nephrostomy-exchange-transplant.yaml', data => {
      data['case'].kind = kind;
    });
    const procedure = contained(made.entries[0], 'Procedure');
    return {
      codes: made.findings.map(({ code }) => code),
      first: procedure['code']?.coding[0].code,
      also: extensionOf(procedure, 'also-done')?.['valueCoding'].code,
    };
  };

  it.each([
    ['nephrostomy exchange', 'nephrostomy-exchange'],
    ['PCN exchange', 'nephrostomy-exchange'],
    ['Percutaneous nephrostomy, left', 'nephrostomy'],
    ['embolization of the left renal artery', 'embolisation'],
    ['chest tube insertion', 'chest-drain-insertion'],
  ])('%s is %s', (kind, code) => expect(kinds(kind)).toEqual({ codes: [], first: code, also: undefined }));

  it('of a case that did two things is both', () => {
    expect(kinds('biliary drainage and biliary stent')).toMatchObject({
      first: 'biliary-drainage',
      also: 'biliary-stent',
    });
  });

  it('that nobody knows is said, not called other', () => {
    expect(kinds('Procedure of Mrs Quintanar')).toEqual({
      codes: ['registry.kind-unlisted'],
      first: undefined,
      also: undefined,
    });
  });
});

describe('complications', () => {
  const answer = (complications: unknown) => {
    const made = entries('nephrostomy-exchange-transplant.yaml', data => {
      if (complications === undefined) delete data['complications'];
      else data['complications'] = complications;
    });
    const procedure = contained(made.entries[0], 'Procedure');
    return {
      answer: extensionOf(procedure, 'complications')?.['valueCode'],
      grades: procedure['complication']?.length,
    };
  };
  const graded = { what: 'Bleeding', grade: { scale: 'CIRSE 2017', grade: 2 } };

  it.each([
    ['none', 'none', { answer: 'none' }],
    ['no word of them', undefined, { answer: 'not-recorded' }],
    ['one without a grade', [{ what: 'Bleeding' }], { answer: 'ungraded' }],
    ['one with a grade', [graded], { answer: 'graded', grades: 1 }],
    ['one of two with a grade', [graded, { what: 'Fever' }], { answer: 'ungraded', grades: 1 }],
  ])('%s', (_what, complications, expected) =>
    expect(answer(complications)).toEqual({ grades: undefined, ...expected }),
  );
});

describe('the number of the patient', () => {
  const local = { system: 'https://ids.harbour.example/mrn', value: 'H 4711' };
  const national = { system: 'https://ids.nation.example/person', value: '900 123 4567' };
  const subject = (identifiers: object[], settings: object = {}) => {
    const made = entries(
      'ureteric-stent-tumour.yaml',
      data => Object.assign(data['patient'], { identifiers }),
      settings,
    );
    return made.entries[0]?.resource.subject.identifier?.value ?? made.findings.map(({ code }) => code);
  };

  it('is that of the system in the settings, wherever it stands and however it is spaced', () => {
    const settings = { patientSystem: national.system };
    const one = subject([local, national], settings);
    expect(one).toMatch(/^k1\.[0-9a-f]{32}$/);
    expect(subject([national, local], settings)).toBe(one);
    expect(subject([{ ...national, value: '900\u00a01234567' }], settings)).toBe(one);
    expect(subject([local], settings)).toEqual(['registry.patient-number-missing']);
  });

  it('is not chosen by place where there are several', () => {
    expect(subject([local, national])).toEqual(['registry.patient-numbers']);
    expect(subject([local])).toMatch(/^k1\.[0-9a-f]{32}$/);
  });
});

describe('names in fields of a device', () => {
  const device = (fields: object, settings: object = {}, catalogue?: Loose): Loose => {
    const data: Loose = parse(exampleText('ureteric-stent-tumour.yaml'));
    const name = Object.keys(data['devices']).find(k => data['devices'][k].kind.includes('stent')) ?? '';
    const {
      label: _label,
      maker: _maker,
      model: _model,
      reference: _reference,
      ...rest
    } = data['devices'][name];
    data['devices'][name] = { ...rest, udi: '09506000117843', lot: 'NSCR23B', ...fields };
    const rows = catalogue && new Map([[catalogue['di'], catalogue as never]]);
    const { record, assessment } = checkCase(stringify(data), siteSchema.parse(unconfiguredSite), rows);
    if (!record || !assessment) throw new Error('unreadable');
    const options = registrySchema.parse({ name: 'Test', serials: 'keep', ...settings });
    const found = registryEntries(record, assessment, options, key).entries.find(e => e.device === name);
    return { ...contained(found, 'Device'), withheld: found?.findings.map(f => `${f.params['field']}`) };
  };

  it.each([
    ['maker', 'manufacturer'],
    ['model', 'modelNumber'],
    ['reference', 'partNumber'],
  ])('a typed %s is not sent unless it is listed', (field, element) => {
    const typed = { [field]: 'Adaeze Quintanar' };
    expect(device(typed)[element]).toBeUndefined();
    expect(device(typed)['withheld']).toContain(field);
    const allowed = { [`${field}s`]: ['Farrow Ductal'] };
    expect(device({ [field]: 'farrow  ductal' }, { allowed })[element]).toBe('Farrow Ductal');
  });

  it('is sent as the catalogue writes it', () => {
    const row = { di: '09506000117843', maker: 'Farrow Ductal', line: 2 };
    expect(device({ maker: 'FARROW DUCTAL' }, {}, row)).toMatchObject({ manufacturer: 'Farrow Ductal' });
    expect(device({}, {}, row)).toMatchObject({ manufacturer: 'Farrow Ductal' });
    expect(device({ maker: 'Quintanar' }, {}, row)).not.toHaveProperty('manufacturer');
  });

  it.each(['Adaeze Quintanar', 'quintanar1', 'QUINTANAR'])('%s is no lot and no serial number', text => {
    const made = device({ lot: text, serial: text });
    expect(made).not.toHaveProperty('lotNumber');
    expect(made).not.toHaveProperty('serialNumber');
    expect(made['withheld']).toEqual(expect.arrayContaining(['lot', 'serial']));
  });

  it('a lot that holds a name of the case is not sent, whatever it looks like', () => {
    const data: Loose = parse(exampleText('ureteric-stent-tumour.yaml'));
    const family = String(data['patient'].name?.family ?? data['patient'].name).split(/[\s,]+/)[0] ?? '';
    expect(family.length).toBeGreaterThan(2);
    expect(device({ lot: `${family.toUpperCase()}-7` })).not.toHaveProperty('lotNumber');
    expect(device({ lot: 'AB-7' })).toMatchObject({ lotNumber: 'AB-7' });
  });
});
