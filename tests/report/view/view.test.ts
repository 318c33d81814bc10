import { describe, expect, it } from 'vitest';
import { audiences } from '../../../src/report/options.js';
import { type ReportView, sectionKeys } from '../../../src/report/view/model.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { bareCase, fullCase, noneCase, notDoneCase } from '../../support/report/cases.js';
import { allViews, flat, render, viewOf } from '../../support/report/reports.js';

const factsOf = (view: ReportView) =>
  Object.values(view.section).flatMap(section =>
    section.blocks.flatMap(block =>
      block.kind === 'facts' ? block.facts.map(f => [f.key, f] as const) : [],
    ),
  );
const marks = (view: ReportView) => Object.fromEntries(factsOf(view).map(([key, fact]) => [key, fact.mark]));

const full = viewOf(fullCase, fullStates);
const timeline = (view: ReportView) => {
  const block = view.section.technique.blocks.find(b => b.kind === 'table' && b.caption === 'Timeline');
  return block?.kind === 'table' ? block.rows.map(row => [row.head.lines[0], row.cells[0]?.lines[0]]) : [];
};

describe('none, not recorded and not done are three things', () => {
  it('says none where the record says none', () => {
    expect(marks(viewOf(noneCase))).toMatchObject({
      allergies: 'none',
      anticoagulants: 'none',
      sedation: 'none',
      drugs: 'none',
      contrast: 'none',
      radiation: 'none',
      specimens: 'none',
      complications: 'none',
      inside: 'none',
      bloodLoss: 'none',
    });
  });

  it('says not recorded where the record is silent', () => {
    expect(marks(viewOf(bareCase))).toMatchObject({
      name: 'not recorded',
      birthDate: 'not recorded',
      allergies: 'not recorded',
      anticoagulants: 'not recorded',
      consent: 'not recorded',
      checklist: 'not recorded',
      drugs: 'not recorded',
      devices: 'not recorded',
      contrast: 'not recorded',
      radiation: 'not recorded',
      complications: 'not recorded',
      outcome: 'not recorded',
      inside: 'not recorded',
      aftercare: 'not recorded',
      contact: 'not recorded',
    });
  });

  it('says not done for the steps of a case that was not done, and not for what was asked before it', () => {
    expect(marks(viewOf(notDoneCase))).toMatchObject({
      drugs: 'not done',
      timeline: 'not done',
      devices: 'not done',
      contrast: 'not done',
      complications: 'not done',
      outcome: 'not done',
      allergies: 'not recorded',
      consent: 'not recorded',
    });
  });

  it('uses words of its own for each', () => {
    const said = new Set(
      [viewOf(noneCase), viewOf(bareCase), viewOf(notDoneCase)].map(v => v.facts.complications.lines[0]),
    );
    expect(said.size).toBe(3);
  });
});

describe('order and place', () => {
  it('has every section in the order of reading, in every case', () => {
    for (const [, view] of allViews())
      expect(Object.values(view.section).map(s => s.key)).toEqual([...sectionKeys]);
  });

  it('gives every row as many cells as there are columns', () => {
    for (const [, view] of allViews())
      for (const block of Object.values(view.section).flatMap(s => s.blocks))
        if (block.kind === 'table')
          for (const row of block.rows) expect(1 + row.cells.length).toBe(block.columns.length);
  });

  it.each(allViews())('%s: what a short report says, the full report says in the same words', (_, view) => {
    const record = flat(render(view, 'record', 'xhtml').replace(/<[^>]*>/g, ' '));
    for (const fact of Object.values(view.facts)) {
      if (
        [
          'contrast',
          'radiation',
          'anticoagulants',
          'complications',
          'specimens',
          'inside',
          'status',
          'access',
        ].includes(fact.key)
      )
        continue;
      const escaped = fact.lines.map(line =>
        line.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;'),
      );
      for (const line of escaped) expect(record).toContain(flat(line));
    }
  });
});

describe('the must-have facts are in every report', () => {
  it.each(allViews().flatMap(([name, view]) => audiences.map(audience => [name, audience, view] as const)))(
    '%s for %s',
    (_, audience, view) => {
      const text = flat(render(view, audience, 'text'));
      const has = (...lines: readonly string[]) => {
        for (const line of lines) expect(text.replace(/ /g, '')).toContain(line.replace(/\s/g, ''));
      };
      has(view.identity.name, view.identity.identifiers, view.status.label, view.title, view.date);
      if (audience === 'patient') has(...view.patient.caution, ...view.patient.notices);
      else has(...view.caution, ...view.status.notices);
      if (audience !== 'record' || view.inside.length === 0) return;
      has(...view.inside.map(item => item.name));
    },
  );
});

describe('times', () => {
  it('orders events by time, across midnight, whatever their order in the file', () => {
    const record = read(fullCase);
    const shuffled = { ...record, events: [...(record.events ?? [])].reverse() };
    const again = buildView(shuffled, assessment(shuffled, fullStates));
    expect(timeline(again)).toEqual(timeline(full));
    expect(timeline(full).map(row => row[0])).toEqual([
      '23:04',
      '23:06',
      '23:08',
      '23:20',
      '23:30',
      '23:40',
      '23:41',
      '23:50',
      'Friday 15 March 2024, 00:05',
    ]);
  });

  it('prints the offset of a time that is under another offset than the case', () => {
    // Lisbon put its clocks back on 27 October 2024 at 02:00 (IANA time zone database).
    const night = bareCase
      .replace('date: 2024-05-02,', 'date: 2024-10-27, started: "00:30", ended: "02:30",')
      .replace('kind: nephrostomy', 'kind: nephrostomy, order: { system: "urn:x:y", value: "1" }');
    const lines = factsOf(viewOf(night));
    const line = (key: string) => lines.find(([k]) => k === key)?.[1].lines[0];
    expect(line('started')).toBe('00:30');
    expect(line('ended')).toBe('02:30 (UTC+00:00)');
    expect(line('times')).toBe('Local time in Europe/Lisbon (UTC+01:00) unless another offset is given');
  });

  it('keeps partial dates partial', () => {
    expect(render(full, 'record', 'text')).toContain('since January 2024');
    expect(render(full, 'record', 'text')).toContain('Made 2023-11');
  });
});

describe('numbers', () => {
  it('keeps the digits that were written', () => {
    const text = render(full, 'record', 'text');
    for (const number of ['68.0 kg', '42.0 Gy·cm²', '9.0 mmHg', '1.20 Gy']) expect(text).toContain(number);
  });
});

describe('devices', () => {
  it('tells two devices apart that would read alike', () => {
    const text = flat(render(full, 'record', 'text'));
    expect(text).toContain('0.035 in guidewire (no. 1 of 2)');
    expect(text).toContain('0.035 in guidewire (no. 2 of 2)');
    expect(text).not.toContain('biliary stent (no.');
  });

  it('marks what no reader may miss, in words and not by looks alone', () => {
    const block = full.section.devices.blocks[0];
    if (block?.kind !== 'table') throw new Error('no table');
    expect(block.rows.filter(row => row.alert).map(row => row.key)).toEqual([
      'devices.balloon',
      'devices.drain',
    ]);
    expect(full.status.notices).toContain(
      'LEFT INSIDE, NOT INTENDED: retention thread of 8.5 Fr drainage catheter, 35 cm.',
    );
    expect(full.status.notices.join(' ')).toContain(
      'NOT ACCOUNTED FOR: a piece of 6 mm x 40 mm dilatation balloon.',
    );
  });

  it('lists what the record says was left even where the tally knows nothing of it', () => {
    const record = read(fullCase);
    const view = buildView(record, assessment(record, {}));
    expect(view.inside.map(item => item.key)).toEqual(['left[0]', 'left[1]', 'left[2]']);
  });
});

describe('status', () => {
  const withStatus = (report: string) => viewOf(bareCase.replace(/report: .*/, `report: ${report}`));
  it.each([
    ['{ status: preliminary, author: op }', 'PRELIMINARY REPORT', true, 'This letter is not final.'],
    [
      '{ status: withdrawn, author: op, change: { why: wrong patient } }',
      'WITHDRAWN: ENTERED IN ERROR',
      true,
      'This letter was made by mistake. Do not use it.',
    ],
    [
      '{ status: amended, version: 3, author: op, signedAt: 2024-05-03T10:00, change: { of: "2", why: lot } }',
      'Version 3, replaces version 2',
      false,
      'It takes the place of the one you had before.',
    ],
    [
      '{ status: appended, author: op, signedAt: 2024-05-03T10:00, change: { why: culture grew } }',
      'REPORT WITH ADDENDUM',
      false,
      'Something was added to this letter.',
    ],
  ])('%s is told before anything else', (report, notice, caution, plain) => {
    const view = withStatus(report);
    expect(view.status.notices.join(' ')).toContain(notice);
    expect(view.status.caution).toBe(caution);
    for (const audience of audiences) {
      const said = audience === 'patient' ? plain : notice;
      const text = flat(render(view, audience, 'text')).replaceAll('*** ', '');
      expect(text.indexOf(said)).toBeGreaterThan(0);
      expect(text.indexOf(said)).toBeLessThan(text.indexOf('Date of birth'));
    }
  });
});

describe('aftercare', () => {
  it('gives days and times with the span they were counted from', () => {
    const text = flat(render(full, 'record', 'text'));
    expect(text).toContain('Not before Thursday 21 March 2024 (1 week after the case)');
    expect(text).toContain('Due Sunday 17 March 2024, 00:49 (48 hours after the case)');
    // 24 March 2024 is a Sunday.
    expect(text).toContain(
      'Due Sunday 24 March 2024 (10 days after the case; working day Monday 25 March 2024)',
    );
  });

  it('puts the tasks of a reader under that reader', () => {
    expect(full.tasks.referrer.map(t => t.what)).toEqual([
      'Check bilirubin and INR',
      'Ask for a cholangiogram through the drain',
    ]);
    expect(full.tasks.ward.map(t => t.what)).toEqual(['URGENT: Flush the drain with 10 mL saline']);
    expect(full.tasks.patient.map(t => t.what)).toEqual(['Keep the dressing dry']);
  });
});

describe('the ward is told', () => {
  const text = flat(render(full, 'ward', 'text'));
  it.each([
    ['how drains are set', 'Set: on free drainage; Fixed by: suture; At the skin: 12 cm'],
    ['what it does and how often', 'How often: every 8 hours'],
    ['the limits at which to call', 'If drain output is under 50 mL for 24 hours: call room 2'],
    ['when things come out', 'At the latest Thursday 6 June 2024 (12 weeks after the case)'],
    ['drugs and reactions', 'lidocaine 1 %'],
    ['when blood thinners start again', 'start again after 24 hours'],
    ['allergies', 'penicillin: rash, mild'],
    ['whom to call', 'Interventional radiology on +351 200 000 102 at any hour'],
  ])('%s', (_, words) => {
    expect(text).toContain(words);
  });
});

describe('the patient is told', () => {
  const text = (view: ReportView) => flat(render(view, 'patient', 'text'));
  it('what stays, what does not, and what should not have stayed', () => {
    expect(text(full)).toContain(
      'A stent This is a small tube. It keeps a passage in your body open. It is meant to stay.',
    );
    expect(text(full)).toContain('It must come out or be changed by Thursday 6 June 2024.');
    expect(text(full)).toContain('Something was left inside your body that was not meant to stay.');
    expect(text(viewOf(noneCase))).toContain('Nothing was left inside your body.');
    expect(text(viewOf(bareCase))).toContain('Your notes do not say if something was left inside your body.');
  });
  it('of a drain that stops only where there is one', () => {
    const words = 'a drain or tube that leaks, hurts, stops or slips out';
    expect(text(full)).toContain(words);
    expect(text(viewOf(noneCase))).not.toContain(words);
  });
  it('no word for clinicians: no sizes, no codes, no device names', () => {
    for (const [, view] of allViews()) {
      const own = [
        ...view.patient.done.slice(1),
        ...view.patient.inside.flatMap(i => [i.name, ...i.lines]),
        ...view.patient.next,
      ];
      expect(own.join(' ')).not.toMatch(/\d+(\.\d+)? ?(Fr|mm|cm|G)\b|catheter|guidewire/);
    }
  });
});
