import { describe, expect, it } from 'vitest';
import { found, recordOf } from '../support.js';

// Trade knowledge: common practice, no source.
const reason = (target: string, text: string) =>
  found(
    'clinical.side',
    recordOf(
      `targets: { t: { what: "${target}", side: ${target.startsWith('Right') ? 'right' : 'left'} } }\nindication: { text: "${text}" }`,
      'kind: stenting',
    ),
  );

const carotid = 'Right internal carotid artery';

describe('the half of the body and the half of the brain', () => {
  it.each([
    [carotid, 'Weakness of the right arm for ten minutes two days ago in a 75-year-old man'],
    [carotid, 'Right-sided weakness since 20:40'],
    [carotid, 'Right arm weakness'],
    [carotid, 'Numbness of the right hand; stenosis of the carotid artery'],
    ['Left middle cerebral artery, M1 segment', 'Aphasia and left hemiparesis since 08:00'],
    ['Left M1 segment', 'Paralysis of the left leg'],
  ])('%s: %s differs', (target, text) => {
    expect(reason(target, text)).toEqual(['clinical.side-differs indication.text']);
  });

  it.each([
    [carotid, 'Weakness of the left arm'],
    [carotid, 'Amaurosis of the right eye'],
    [carotid, 'Weakness of the right arm and loss of sight in the left eye'],
    [carotid, 'Weakness of the left arm; weakness of the right leg since a fall'],
    [carotid, 'Weakness of the right arm after an injury of the plexus'],
    [carotid, 'Asymptomatic stenosis; known weakness of the right hand'],
    [carotid, 'No weakness of the right arm'],
    ['Right vertebral artery', 'Weakness of the right arm'],
    ['Right posterior cerebral artery', 'Numbness of the right arm'],
    ['Right external carotid artery', 'Weakness of the right arm'],
    ['Right carotid body tumour', 'Right-sided weakness'],
    ['Right subclavian artery', 'Right arm weakness on exertion'],
  ])('%s: %s is silent', (target, text) => {
    expect(reason(target, text)).toEqual([]);
  });
});
