import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

// Trade knowledge: common practice, no source.
const grades = (conclusion: string, imaging = 'CT: grade IV injury of the spleen') =>
  found(
    'clinical.measurement',
    recordOf(
      `indication: { text: Fall from a scaffold; splenic rupture grade 4, conditions: [Grade 4 injury of the spleen] }
before: { imaging: "${imaging}" }
conclusion: "${conclusion}"`,
      'kind: splenic artery embolisation',
    ),
  );

describe('the grade of an injury', () => {
  it('differs where two places agree on another one', () => {
    expect(grades('Grade 3 injury of the spleen embolised')).toEqual([
      'clinical.measurement-differs conclusion',
    ]);
    expect(grades('Splenic rupture grade II closed')).toEqual(['clinical.measurement-differs conclusion']);
  });

  it.each([
    'Grade IV injury of the spleen embolised',
    'Grade 4 injury of the spleen embolised',
    'Grade 2 injury of the liver left alone',
    'Splenic embolisation, complication of grade 1',
    'Spleen: grade 3 to 4',
    'Injury of the spleen now grade 3',
    'Spleen embolised; SIR grade 1',
  ])('%s is silent', text => {
    expect(grades(text)).toEqual([]);
  });

  it('is silent where another place gives the same', () => {
    expect(grades('Spleen of grade 3 embolised', 'CT: spleen graded 3 after review')).toEqual([]);
    expect(grades('Grade 3 injury of the spleen embolised', 'CT: grade III injury of the spleen')).toEqual(
      [],
    );
  });
});
