import { describe, expect, it } from 'vitest';
import { assess } from '../../src/clinical/assess.js';
import type { Language } from '../../src/findings/languages.js';
import { lexicon } from '../../src/findings/say.js';
import { type Audience, audiences } from '../../src/report/options.js';
import { whyNoReport } from '../../src/report/refusal.js';
import { buildView } from '../../src/report/view/view.js';
import { caseText, recordOf } from '../support/case-text.js';
import { flat, renderWith } from '../support/report/reports.js';

const languages = ['en-GB', 'de', 'es'] as const;
const readers = audiences.filter(audience => audience !== 'patient');

function paper(
  more: string,
  audience: Audience,
  language: Language = 'en-GB',
  head = '',
  errors = 0,
): string {
  const record = recordOf(
    caseText({ more, head }).replace('  status: completed\n', head === '' ? '  status: completed\n' : ''),
  );
  const view = buildView(record, assess(record), { language });
  return flat(renderWith(view, { audience, errors, format: 'text' }));
}

const DEVICES = `devices:
  zq1: { kind: guidewire, diameter: 0.035 in, length: 80 cm }
  zq2: { kind: biliary stent, size: 8 mm x 60 mm }
  zq3: { kind: snare, parts: { zq4: { kind: tip } } }
events:
  - { at: "09:04", do: insert, device: zq1 }
  - { at: "09:05", do: deploy, device: zq2 }
  - { at: "09:06", do: insert, device: zq3 }
  - { at: "09:07", do: fracture, device: zq3, part: zq4 }
  - { at: "09:08", do: remove, device: zq3 }
left: [{ device: zq2, purpose: intended }, { device: zq3, part: zq4, purpose: unintended }]
`;
const MISSING = `${DEVICES}missing: [{ device: zq1, searched: drapes and bin, by: op, imaging: film of the abdomen, result: nothing seen, told: the patient and the ward, at: "09:40" }]
`;

// Three things that must never read alike: common practice, no source.
describe.each(languages)(
  'what nobody accounts for, what was left by accident and what is meant to stay, in %s',
  language => {
    const { say, text: said } = lexicon(language);
    const list = said({ device: '0.035 in guidewire, 80 cm', kind: 'guidewire', row: 'guidewire' });

    it.each(readers)('are three sentences for the %s', reader => {
      const text = paper(DEVICES, reader, language);
      expect(text).toContain(flat(say('notice.unaccounted', { list })));
      expect(text).toContain(
        flat(
          say('notice.retained', {
            list: say('name.part', {
              part: { named: 'parts', text: 'tip' },
              device: said({ device: 'snare', kind: 'snare', row: 'snare' }),
            }),
          }),
        ),
      );
      expect(text).toContain(say('state.in situ intended'));
      expect(text).toContain(say('whereabouts.unaccounted').slice(0, 20));
      expect(text).not.toMatch(/zq\d/);
    });

    it.each(audiences)('and what cannot be found has its own for the %s', reader => {
      const text = paper(MISSING, reader, language);
      const patient = reader === 'patient';
      expect(text).toContain(
        flat(
          say(patient ? 'patientMissing.looked' : 'notice.missing', {
            list,
          }),
        ),
      );
      if (!patient)
        for (const said of ['drapes and bin', 'film of the abdomen', 'nothing seen', 'Dr Test'])
          expect(text).toContain(said);
      expect(text).not.toContain(say('state.unaccounted'));
      expect(text).not.toMatch(/zq\d/);
      // What stays is listed apart from it.
      const record = recordOf(caseText({ more: MISSING }));
      const view = buildView(record, assess(record), { language });
      expect(view.inside.map(({ key }) => key)).toEqual(['zq2', 'zq3.zq4']);
      expect(view.whereabouts.map(({ key }) => key)).toEqual(['missing[0]']);
    });
  },
);

describe('a report with errors', () => {
  it.each(languages)('says so first and as its state, in %s', language => {
    const { plural } = lexicon(language);
    for (const reader of readers) {
      const text = paper(DEVICES, reader, language, '', 2);
      expect(text).toContain(plural('draft.line', '2'));
      expect(text).toContain(plural('draft.notice', '2'));
    }
  });

  it('is refused to the patient always, and to others unless they ask for a draft', () => {
    const record = recordOf(caseText());
    expect(whyNoReport(record, 'patient', 1, true)).toMatch(/no letter to the patient while 1 error stands/);
    expect(whyNoReport(record, 'ward', 2, false)).toMatch(/2 errors stand/);
    expect(whyNoReport(record, 'ward', 2, true)).toBeUndefined();
    for (const reader of audiences) expect(whyNoReport(record, reader, 0, false)).toBeUndefined();
  });
});

describe('a death', () => {
  const DRAIN = `devices: { drain: { kind: drainage catheter } }
events: [{ at: "09:04", do: insert, device: drain }, { at: "09:05", do: lock, device: drain }]
left: [{ device: drain, purpose: temporary, set: free drainage }]
`;
  const dead = [
    `${DRAIN}outcome: { overall: unsuccessful, died: "09:50", coroner: yes }\n`,
    `${DRAIN}outcome: { overall: unsuccessful }\ncomplications: [{ what: bleeding, at: "09:40", harm: death, action: resuscitation }]\n`,
  ];

  it.each(dead)('has its own words for each reader and none for the patient', more => {
    expect(paper(more, 'record')).toContain('THE PATIENT HAS DIED.');
    expect(paper(more, 'referrer')).toContain('sorry to tell you that your patient died');
    expect(paper(more, 'ward')).toContain('The patient died');
    expect(whyNoReport(recordOf(caseText({ more })), 'patient', 0, false)).toMatch(/patient died/);
    for (const reader of readers) expect(paper(more, reader)).not.toContain('Remove or change');
  });

  it.each(dead)('asks for no aftercare of what is left', more => {
    const record = recordOf(caseText({ more }));
    const codes = assess(record).findings.map(({ code }) => code);
    expect(codes).not.toContain('clinical.left-without-aftercare');
    expect(codes).not.toContain('tally.no-condition');
    const living = recordOf(caseText({ more: DRAIN }));
    expect(assess(living).findings.map(({ code }) => code)).toContain('clinical.left-without-aftercare');
  });

  it('leaves devices in place for the coroner', () => {
    for (const reader of readers) expect(paper(dead[0] ?? '', reader)).toMatch(/coroner/);
  });
});

describe('a case that was not finished', () => {
  const stopped = '  status: stopped early\n  reason: could not cross';
  it('never went well, whatever its outcome is called', () => {
    const text = paper(
      'outcome: { overall: successful }\ncomplications: none\n',
      'patient',
      'en-GB',
      stopped,
    );
    expect(text).toContain('It was stopped early.');
    expect(text).not.toContain('It went well');
  });

  it.each([
    ['surgery', 'An operation was needed instead.', 'converted to open surgery'],
    ['transfer', 'You will go to another hospital', 'transferred to another hospital'],
    ['repeat', 'Your team plans to try again.', 'to be attempted again'],
  ])('is followed by %s, in words for each', (what, patient, other) => {
    const more = `outcome: { overall: unsuccessful, followedBy: ${what} }\n`;
    expect(paper(more, 'patient', 'en-GB', stopped)).toContain(patient);
    for (const reader of readers) expect(paper(more, reader, 'en-GB', stopped)).toContain(other);
  });
});

describe('the letter to the patient', () => {
  const letter = (more: string, team = '') =>
    flat(
      (() => {
        const record = recordOf(caseText({ more }).replace('team: [', `team: [${team}`));
        return renderWith(buildView(record, assess(record)), { audience: 'patient', format: 'text' });
      })(),
    );

  it('says what was decided about blood thinners, drug by drug', () => {
    const text = letter(
      'before: { anticoagulants: [{ drug: apixaban, plan: restart on 16 May }, { drug: aspirin, plan: go on }, { drug: warfarin }] }\n',
    );
    expect(text).toContain('You take apixaban, which thins your blood. The plan: restart on 16 May.');
    expect(text).toContain('You take aspirin, which thins your blood. The plan: go on.');
    expect(text).toContain(
      'You take warfarin, which thins your blood. Your notes do not say if you should go on or stop.',
    );
  });

  it('names the operator who finished', () => {
    const more = `devices: { needle: { kind: access needle } }
events: [{ at: "09:20", do: remove, device: needle, by: second }, { at: "09:01", do: insert, device: needle, by: op }]
`;
    expect(letter(more, '{ key: second, role: operator, name: Dr Later }, ')).toContain(
      'It was done by Dr Later.',
    );
    expect(letter('', '{ key: first, role: operator, name: Dr Earlier }, ')).toContain(
      'It was done by Dr Test.',
    );
  });

  it('says which results are still to come', () => {
    const text = letter('specimens: [{ what: core, sentFor: histology }, { what: pus }]\n');
    expect(text).toContain('We sent a sample for a test (core: histology).');
    expect(text).not.toContain('(pus');
  });

  it('makes an appointment of every dated visit and of nothing else', () => {
    const text = letter(`aftercare:
  - { do: Clinic, due: 2024-06-10, by: referrer }
  - { do: Ultrasound of the liver, due: 2024-06-20, by: interventional radiology }
  - { do: Phone the referrer with the culture, due: 2024-05-17, by: interventional radiology }
  - { do: Report to the registry, due: 2024-05-18, by: other }
  - { do: No follow-up needed, due: 2024-07-01, by: referrer }
`);
    expect(text).toContain(
      'The doctor who sent you to us will arrange a visit for you. The planned day is Monday 10 June 2024.',
    );
    expect(text).toContain('Our team will see you. The planned day is Thursday 20 June 2024.');
    for (const day of ['17 May', '18 May', '1 July']) expect(text).not.toContain(day);
  });

  it('asks nobody to take out or look at what is meant to stay', () => {
    const more = `devices: { coil: { kind: coil, family: embolic, implant: yes } }
events: [{ at: "09:04", do: deploy, device: coil }]
left: [{ device: coil, purpose: intended }]
`;
    const record = recordOf(caseText({ more }));
    const { findings, aftercare } = assess(record);
    expect(findings.map(({ code }) => code)).not.toContain('clinical.left-without-aftercare');
    expect(aftercare).toEqual([]);
    expect(letter(more)).not.toMatch(/will see you|come out|looked at/);
  });
});
