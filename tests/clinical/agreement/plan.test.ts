import { describe, expect, it } from 'vitest';
import { checkAgreement } from '../../../src/clinical/agreement/check.js';
import { describeDevices } from '../../../src/devices/details.js';
import { tallyDevices } from '../../../src/devices/tally/tally.js';
import { messageOf } from '../../../src/findings/finding.js';
import { found, recordOf } from './support.js';

describe('a death in outcome.died', () => {
  it('is held against what is told of a living patient', () => {
    const record = recordOf(`outcome:
  { overall: successful, died: "09:40", condition: Stable, disposition: Ward }
aftercare: [{ do: Clinic visit, due: 6 weeks, by: ward }]`);
    expect(found('clinical.', record)).toEqual(
      expect.arrayContaining([
        'clinical.outcome-differs outcome.overall',
        'clinical.death-differs outcome.disposition',
        'clinical.death-differs outcome.condition',
        'clinical.death-differs aftercare[0].do',
      ]),
    );
  });

  it('is told in one finding that names every place and says its time for people', () => {
    const record =
      recordOf(`outcome: { overall: unsuccessful, died: "09:40", condition: Stable, disposition: Ward }
aftercare: [{ do: Clinic visit, due: 6 weeks, by: ward }]
advice: { patient: [Drink well] }`);
    const { devices } = describeDevices(record);
    const all = checkAgreement(record, devices, tallyDevices(record, devices)).filter(
      f => f.code === 'clinical.death-differs',
    );
    const [head, ...rest] = all.filter(f => !f.follows);
    expect(rest).toEqual([]);
    expect(head && messageOf(head)).toBe(
      "outcome.died records a death (2024-03-14 09:40); this is about a living patient: outcome.disposition ('Ward'), outcome.condition ('Stable'), aftercare[0].do ('Clinic visit'), advice.patient ('Drink well'), case.status ('completed').",
    );
    expect(all.slice(1).map(f => f.follows)).toEqual(
      Array(4).fill({ code: 'clinical.death-differs', path: 'outcome.disposition' }),
    );
  });

  it('takes nothing from the success of a case that it came after', () => {
    const record = recordOf('outcome: { overall: successful, died: "23:00" }');
    expect(found('clinical.outcome-differs', record)).toEqual([]);
  });
});

describe('a completed case', () => {
  it.each([
    ['Procedure abandoned because the bowel lay too close', 1],
    ['Cancelled because the vein was closed', 1],
    ['Bleeding stopped after two coils', 0],
  ])('that its text tells of: %s', (text, count) => {
    const record = recordOf(`outcome: { overall: unsuccessful, text: ${text} }`);
    expect(found('clinical.status-differs', record)).toHaveLength(count);
  });
});

describe('a mild complication', () => {
  it.each([
    ['treatment: intensive care', 1],
    ['harm: permanent severe', 1],
    ['treatment: drugs', 0],
  ])('with %s', (consequence, count) => {
    const record = recordOf(`complications: [{ what: Haematoma, severity: mild, ${consequence} }]`);
    expect(found('clinical.severity-differs', record)).toHaveLength(count);
  });
});

describe('a plan', () => {
  it.each([
    ['Cryoablation of a tumour', 1],
    ['Microwave ablation of a tumour', 0],
    ['Ablation of a tumour', 0],
  ])('for another method: %s', (planned, count) => {
    const record = recordOf(`planned: ${planned}`, 'kind: microwave ablation');
    expect(found('clinical.plan-differs', record)).toHaveLength(count);
  });

  it('of a temporary device is not permanent in the conclusion', () => {
    const record = recordOf(`devices: { filter: { kind: caval filter } }
left: [{ device: filter, purpose: temporary }]
conclusion: Permanent caval filter in place`);
    expect(found('clinical.plan-differs', record)).toEqual(['clinical.plan-differs conclusion']);
  });

  it('takes nothing out that stays for good', () => {
    const record = recordOf(`devices: { stent: { kind: stent } }
left: [{ device: stent, purpose: temporary, until: { condition: stays for good } }]
aftercare: [{ do: Remove the stent, device: stent, due: 4 weeks, by: ward }]`);
    expect(found('clinical.plan-differs', record)).toEqual([
      'clinical.plan-differs left[0].purpose',
      'clinical.plan-differs aftercare[0].do',
    ]);
  });
});

it('holds another complication against those recorded, but not one of its kin', () => {
  const told = (text: string) =>
    found(
      'clinical.complication-unsaid',
      recordOf(`complications: [{ what: Pneumothorax }]\nconclusion: ${text}`),
    );
  expect(told('Haemoptysis of 100 mL')).toEqual(['clinical.complication-unsaid conclusion']);
  expect(told('Small pneumothorax')).toEqual([]);
});
