import { expect, it } from 'vitest';
import { found, recordOf } from './support.js';

const liver = (more: string) =>
  found(
    'clinical.plan-differs',
    recordOf(
      `targets: { t: { what: Right lobe of the liver } }
specimens: [{ what: liver cores }]
findings: [{ text: Liver with a nodular surface }]
${more}`,
      'kind: liver biopsy, procedure: Biopsy of the liver',
    ),
  );

// Common practice, no source.
it('a text about an organ of another case', () => {
  expect(liver('conclusion: Two cores of the left kidney.')).toEqual(['clinical.plan-differs conclusion']);
  expect(liver('advice: { patient: ["You may see blood from the prostate for a week."] }')).toHaveLength(0);
  expect(liver('advice: { patient: ["The treated breast may be sore."] }')).toHaveLength(1);
  expect(liver('planned: Embolisation of the spleen')).toHaveLength(1);
});

it.each([
  'conclusion: Two cores of the liver.',
  'conclusion: Two cores.',
  'indication: { text: Breast cancer; a new lesion }\nconclusion: Cores of a deposit of the breast.',
  'aftercare: [{ do: Check kidney function, due: 1 day, by: ward }]',
  'advice: { ward: ["Tell the lung clinic."] }',
  'conclusion: Metastasis of breast cancer sampled.',
])('silent: %s', more => {
  expect(liver(more)).toEqual([]);
});
