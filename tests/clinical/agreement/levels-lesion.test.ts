import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

// Trade knowledge: common practice, no source.
const levels = (body: string) => found('clinical.level', recordOf(body, 'kind: thoracic duct embolisation'));

const duct = 'targets: { duct: { what: Thoracic duct, lesion: leak at the level of T8 } }';

describe('the level of a lesion', () => {
  it.each([
    [duct, 'conclusion: Leak of the thoracic duct at T10', 'conclusion'],
    [duct, 'findings: [{ text: Leak of the duct in front of T11, about: duct }]', 'findings[0].text'],
    [
      'targets: { duct: { what: Thoracic duct, lesion: leak } }\nfindings: [{ text: Leak of the duct at T8 }]',
      'conclusion: Leak at T10',
      'conclusion',
    ],
    [duct, 'conclusion: Leak at the tenth thoracic vertebra', 'conclusion'],
  ])('%s %s differs', (body, text, path) => {
    expect(levels(`${body}\n${text}`)).toEqual([`clinical.level-differs ${path}`]);
  });

  it.each([
    'conclusion: Leak of the thoracic duct at T8',
    'conclusion: Leak of the duct at T7/8',
    'findings: [{ text: Cisterna chyli in front of L1 }]',
    'findings: [{ text: "Cast of coils from T8 to L1, no further leak" }]',
    'conclusion: Leak closed with coils at T10',
    'conclusion: No leak at T10',
    'conclusion: Second leak at T10 besides the one at T8',
    'indication: { text: Earlier leak at T10 }',
    'conclusion: Leak from T8 to T10',
    'conclusion: Fracture of L1',
  ])('%s is silent', text => {
    expect(levels(`${duct}\n${text}`)).toEqual([]);
  });
});
