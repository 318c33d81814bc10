import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import { mapCase } from '../../src/fhir/map-case.js';
import { writeFhirJson } from '../../src/json/write.js';
import { parseCaseData } from '../../src/record/parse.js';
import { caseText, mapped, narrative, options, resourceOf } from './cases.js';
import { fullCase } from './full-case.js';

describe('a device that is unaccounted for', () => {
  const { set } = mapped(
    caseText(`
devices: { wire: { kind: guidewire } }
events: [{ at: "09:05", do: insert, device: wire }]
left: none`),
  );

  it('is of unknown status, is claimed to be neither inside nor out, and is named in the procedure', () => {
    expect(resourceOf(set, 'device/wire', 'Device').status).toBe('unknown');
    expect(set.entries.map(entry => entry.role)).not.toContain('use/wire');
    const notes = resourceOf(set, 'procedure', 'Procedure').note?.map(note => note.text) ?? [];
    expect(notes.some(text => text.startsWith('Unaccounted: '))).toBe(true);
  });
});

describe('a device from an earlier case', () => {
  const { set } = mapped(
    caseText(`
devices: { stent: { kind: ureteric stent, carried: { site: left ureter } } }
left: [{ device: stent, purpose: intended }]`),
  );

  it('without a known beginning is in use on the day of the case: no date is made up', () => {
    const use = resourceOf(set, 'use/stent', 'DeviceUseStatement');
    expect([use.status, use.timingDateTime, use.timingPeriod]).toEqual(['active', '2024-03-14', undefined]);
  });

  it('that was not touched is no focal device', () => {
    expect(resourceOf(set, 'procedure', 'Procedure').focalDevice).toBeUndefined();
  });
});

describe('a retrieval that fails', () => {
  const { set } = mapped(
    caseText(`
devices:
  filter: { kind: caval filter, carried: { date: 2023-05-02 } }
  snare: { kind: snare }
events:
  - { at: "09:05", do: insert, device: snare }
  - { at: "09:15", do: attempt, device: snare, result: hook not caught }
  - { at: "09:30", do: remove, device: snare }
left: [{ device: filter, purpose: intended }]`),
  );

  it('is a stopped, unsuccessful component that manipulated the filter', () => {
    const removal = resourceOf(set, 'procedure/removal/filter', 'Procedure');
    expect(removal.status).toBe('stopped');
    expect(removal.statusReason?.coding?.[0]?.code).toBe('103709008');
    expect(removal.outcome?.coding?.[0]?.code).toBe('unsuccessful');
    expect(removal.focalDevice?.[0]?.action?.coding?.map(({ code }) => code)).toEqual(['manipulated']);
  });

  it('leaves the filter in use since it was placed', () => {
    expect(resourceOf(set, 'use/filter', 'DeviceUseStatement')).toMatchObject({
      status: 'active',
      timingPeriod: { start: '2023-05-02' },
    });
  });
});

describe('a retained part', () => {
  const { set } = mapped(
    caseText(`
devices: { wire: { kind: guidewire, parts: { tip: { kind: tip } } } }
events:
  - { at: "09:05", do: insert, device: wire }
  - { at: "09:15", do: fracture, device: wire, part: tip }
  - { at: "09:30", do: remove, device: wire, state: part missing }
left: [{ device: wire, part: tip, purpose: unintended, note: told to the patient }]`),
  );

  it('has a DeviceUseStatement of its own, which says that it was not meant to stay', () => {
    const use = resourceOf(set, 'use/wire/tip', 'DeviceUseStatement');
    expect(use.status).toBe('active');
    expect(use.note?.map(note => note.text).join('; ')).toMatch(
      /retained unintended.*unintended.*told to the patient/,
    );
    const part = resourceOf(set, 'device/wire/tip', 'Device');
    expect(part.status).toBe('active');
    expect(part.parent?.reference).toBe(set.entries.find(entry => entry.role === 'device/wire')?.fullUrl);
  });
});

describe('an exchange', () => {
  const { set } = mapped(
    caseText(`
devices:
  old: { kind: nephrostomy catheter, carried: { date: 2024-01 } }
  new: { kind: nephrostomy catheter, size: 8.5 Fr }
  wire: { kind: guidewire }
events:
  - { at: "09:05", do: insert, device: wire, through: old }
  - { at: "09:08", do: exchange, device: new, replaces: old, over: wire }
  - { at: "09:12", do: flush, device: new }
  - { at: "09:13", do: remove, device: wire }
left: [{ device: new, purpose: temporary }]`),
  );

  it('is one component with the device that went out and the one that came in', () => {
    const roles = set.entries.map(entry => entry.role).filter(role => /^procedure\//.test(role));
    expect(roles).toEqual(['procedure/exchange/new']);
    const exchange = resourceOf(set, 'procedure/exchange/new', 'Procedure');
    expect(exchange.focalDevice?.map(focal => focal.action?.text).sort()).toEqual(['Explanted', 'Implanted']);
    expect(exchange.performedPeriod).toEqual({
      start: '2024-03-14T09:08:00+00:00',
      end: '2024-03-14T09:12:00+00:00',
    });
  });
});

describe('sections', () => {
  const reason = (more: string, title: string) => {
    const sections = resourceOf(mapped(caseText(more)).set, 'composition', 'Composition').section ?? [];
    const found = [...sections, ...sections.flatMap(({ section }) => section ?? [])].find(
      one => one.title === title,
    );
    return [found?.emptyReason?.coding?.[0]?.code, found?.entry?.length];
  };

  it.each([
    ['Allergies', '', ['notasked', undefined]],
    ['Allergies', 'before: { allergies: none }', ['nilknown', undefined]],
    ['Complications', '', ['notasked', undefined]],
    ['Complications', 'complications: none', ['nilknown', undefined]],
    ['Complications', 'complications: [{ what: haematoma }]', [undefined, 1]],
    ['Specimens', 'specimens: none', ['nilknown', undefined]],
  ])('%s of { %s } have reason and entries %j', (title, more, expected) => {
    expect(reason(more, title)).toEqual(expected);
  });
});

describe('the order of lines', () => {
  it('in the file makes no difference, the order of time does', () => {
    const text = (data: unknown) => {
      const { record } = parseCaseData(data);
      if (!record) throw new Error('not read');
      const { entries } = mapCase(record, assess(record), narrative, {
        ...options,
        sourceDigest: 'sha256:0',
      });
      return entries.map(({ resource }) => writeFhirJson(resource)).join('\n');
    };
    // Events of one time keep the order in which they are written.
    const events = fullCase.events.filter(
      ({ at }, index) => fullCase.events.findIndex(other => other.at === at) === index,
    );
    expect(events.length).toBeGreaterThan(10);
    const straight = text({ ...fullCase, events });
    expect(text({ ...fullCase, events: [...events].reverse() })).toBe(straight);
    const later = events.map((event, index) => (index === 2 ? { ...event, at: '09:34' } : event));
    expect(text({ ...fullCase, events: later })).not.toBe(straight);
  });
});
