import { describe, expect, it } from 'vitest';
import { complicationsAdvised, complicationsTold } from '../../../src/trade/complications.js';
import { found, recordOf } from './support.js';

// Trade knowledge: common practice, no source.
describe('complications in a text', () => {
  it.each([
    'pneumothorax of 15 mm',
    'capsule perforation with bleeding into the peritoneum',
    'dissection of the left external iliac artery that limits flow',
    'TICI 2b; extravasation from an M2 branch',
    'leak of cement into the spinal canal',
    'gas beside the colon; bowel injury by heat',
    'New weakness of the left leg',
    'fresh blood; intercostal artery bleeding',
    'small haematoma at the groin, stable',
  ])('told: %s', text => {
    expect(complicationsTold(text).length).toBeGreaterThan(0);
  });

  it.each([
    'no pneumothorax',
    'Well; no pneumothorax',
    'without extravasation',
    'pneumothorax excluded',
    'no dissection and no clot; both stents open',
    'no bleeding, perforation or clot',
    'no leak into the canal; no cement in a vein',
    'bleeding from the tract stopped',
    'film to exclude a pneumothorax',
    'both lumens bleed freely',
    'blood comes freely',
    'risk of haematoma explained',
  ])('silent: %s', text => {
    expect(complicationsTold(text)).toEqual([]);
  });
});

describe('in advice', () => {
  it.each(['Large hematoma of the right groin, mark its edge each hour.', 'He had a pneumothorax of 2 cm.'])(
    'told: %s',
    text => {
      expect(complicationsAdvised(text).length).toBeGreaterThan(0);
    },
  );

  it.each([
    'Call for bleeding or haematoma.',
    'New weakness of a leg or trouble passing water: come at once.',
    'If the pneumothorax grows a chest drain may be needed.',
    'Look for haemoptysis.',
  ])('silent: %s', text => {
    expect(complicationsAdvised(text)).toEqual([]);
  });
});

describe('a complication that is told and not recorded', () => {
  const note = (result: string) => `events: [{ at: "09:20", do: note, result: ${result} }]`;
  const code = 'clinical.complication-unsaid';

  it('is a finding where complications are none or absent', () => {
    expect(found(code, recordOf(`${note('pneumothorax of 15 mm')}\ncomplications: none`))).toEqual([
      `${code} events[0].result`,
    ]);
    expect(found(code, recordOf(note('pneumothorax of 15 mm')))).toHaveLength(1);
  });

  it('is none where it is recorded, or is why the case was done', () => {
    const recorded = `${note('pneumothorax of 15 mm')}\ncomplications: [{ what: Pneumothorax }]`;
    expect(found(code, recordOf(recorded))).toEqual([]);
    const reason = `${note('extravasation from the gastroduodenal artery')}\nindication: { text: Bleeding ulcer }\ncomplications: none`;
    expect(found(code, recordOf(reason))).toEqual([]);
  });
});
