import { rememberedOf } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { Told } from '../texts.js';

/** Every text of a record that tells of the case, with its path; people, places and settings are left out. */
export const everyText: (record: CaseRecord) => readonly Told[] = rememberedOf((record: CaseRecord) => {
  const found: Told[] = [];
  const walk = (path: string, value: unknown): void => {
    if (typeof value === 'string') found.push({ path, text: value.slice(0, 5000) });
    else if (Array.isArray(value)) for (const [i, one] of value.entries()) walk(`${path}[${i}]`, one);
    else if (typeof value === 'object' && value !== null)
      for (const [key, one] of Object.entries(value)) walk(path === '' ? key : `${path}.${key}`, one);
  };
  const { indication, planned, before, access, targets, devices, events, findings, images } = record;
  const { specimens, complications, outcome, left, aftercare, advice, conclusion } = record;
  walk('case.kind', record.case.kind);
  walk('case.procedure', record.case.procedure?.text);
  walk('', { indication, planned, before, access, targets, devices, events, findings, images });
  walk('', { specimens, complications, outcome, left, aftercare, advice, conclusion });
  return found;
});

/** Those of other fields than the one at the path; the code of a term goes with its text. */
export const textsBeside = (record: CaseRecord, path: string): readonly string[] =>
  everyText(record).flatMap(one => (one.path === path || one.path === `${path}.text` ? [] : [one.text]));
