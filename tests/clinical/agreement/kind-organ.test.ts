import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

// Trade knowledge: common practice, no source.
const kinds = (body: string, kind: string, title?: string) =>
  found(
    'clinical.kind',
    recordOf(body, `kind: ${kind}${title === undefined ? '' : `, procedure: ${title}`}`),
  );

const liver = `planned: Transjugular liver biopsy
targets: { l: { what: Right lobe of the liver } }
specimens: [{ what: cores of the liver }]`;

describe('the organ of the kind of case', () => {
  it.each([
    [liver, 'transjugular kidney biopsy', 'Transjugular biopsy of the liver'],
    [
      'planned: Injection at the right L5 nerve root\ntargets: { r: { what: Right L5 nerve root } }\nconclusion: L5 nerve root injected',
      'liver biopsy',
      'Biopsy of the liver',
    ],
    [
      'planned: Oesophageal stent\ntargets: { s: { what: Lower oesophagus } }',
      'gastrostomy insertion',
      'Covered stent of the lower oesophagus',
    ],
    [
      'targets: { v: { what: Left testicular vein } }',
      'uterine artery embolisation',
      'Embolisation of the left testicular vein',
    ],
    [
      'targets: { n: { what: Nodule of the left lower lobe } }',
      'kidney biopsy',
      'Biopsy of the left lower lobe',
    ],
    ['targets: { k: { what: Left kidney } }', 'lung biopsy', 'Ablation of a tumour of the left kidney'],
  ])('%s: %s, %s differs', (body, kind, title) => {
    expect(kinds(body, kind, title)).toEqual(['clinical.kind-differs case.kind']);
  });

  it.each([
    [liver, 'liver biopsy', 'Transjugular biopsy of the liver'],
    [liver, 'biopsy', 'Transjugular biopsy of the liver'],
    [`${liver}\nfindings: [{ text: Right kidney reached as well }]`, 'kidney biopsy', 'Biopsy of the liver'],
    ['targets: { s: { what: Metastasis of breast cancer in segment 4 } }', 'liver biopsy', 'Biopsy'],
    [
      'planned: Embolisation\ntargets: { v: { what: Left gastric vein } }\nconclusion: Varices of the stomach closed',
      'oesophageal varices embolisation',
      'Embolisation of varices',
    ],
    [
      'targets: { g: { what: Graft in the right iliac fossa } }\nplanned: Biopsy',
      'kidney biopsy',
      'Biopsy of a transplant',
    ],
    ['targets: { p: { what: Pedicle of L3 } }', 'vertebroplasty', 'Vertebroplasty of L3'],
  ])('%s: %s, %s is silent', (body, kind, title) => {
    expect(kinds(body, kind, title)).toEqual([]);
  });
});
