import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Drug, drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { isTurned } from '../notes.js';
import { conditionsTold } from '../texts.js';
import type { Given } from './given.js';

/** A drug, and what a patient has who is not given it without a second thought. */
interface Pair {
  readonly is: (drug: Drug) => boolean;
  readonly condition: RegExp;
}

const named =
  (...names: readonly string[]) =>
  (drug: Drug) =>
    names.includes(drug.name);

/** Common practice, no source. */
const pairs: readonly Pair[] = [
  {
    is: ({ families }) => families.includes('NSAID'),
    condition:
      /\b(?:kidney|renal) (?:transplant\w*|allograft|failure|impairment|insufficiency)\b|\btransplanted kidney\b|\b(?:chronic kidney disease|CKD)\b|\b(?:peptic|gastric|duodenal|stomach) ulcer\b|\bgastrointestinal bleed\w*\b|\bacute kidney injury\b/i,
  },
  { is: named('glucagon'), condition: /\b(?:pha?eochromocytoma|insulinoma|glucagonoma)\b/i },
  {
    is: named('hyoscine butylbromide', 'atropine', 'glycopyrronium'),
    condition: /\b(?:narrow|closed|closure)[- ]?angle\b|\bangle[- ]closure\b|\bmyasthenia\b/i,
  },
  { is: named('flumazenil', 'tramadol'), condition: /\bepilep\w+|\bseizure disorder\b/i },
  {
    is: named('gentamicin', 'tobramycin', 'amikacin'),
    condition:
      /\bmyasthenia\b|\b(?:kidney|renal) (?:transplant\w*|allograft|failure)\b|\btransplanted kidney\b|\bacute kidney injury\b/i,
  },
  { is: named('ciprofloxacin', 'levofloxacin', 'moxifloxacin'), condition: /\bmyasthenia\b/i },
  { is: named('suxamethonium'), condition: /\bmalignant hyperthermia\b|\bhyperkala?emi\w*/i },
  { is: named('adenosine'), condition: /\basthma\b/i },
  {
    is: named('alteplase', 'urokinase', 'tenecteplase'),
    condition:
      /\b(?:intracranial|intracerebral|cerebral|subdural|subarachnoid) (?:bleed\w*|ha?emorrhage|ha?ematoma)\b/i,
  },
  { is: named('glyceryl trinitrate'), condition: /\bsevere aortic stenosis\b|\b(?:sildenafil|tadalafil)\b/i },
  { is: named('paracetamol'), condition: /\bacute liver failure\b|\bparacetamol overdose\b/i },
  {
    is: ({ families }) => families.includes('iodinated contrast'),
    condition: /\bthyrotoxi\w+|\bthyroid storm\b|\bhyperthyroidism\b/i,
  },
  { is: named('metoclopramide', 'haloperidol'), condition: /\bparkinson\w*/i },
  { is: named('labetalol', 'esmolol', 'propranolol', 'metoprolol'), condition: /\basthma\b/i },
];

/** Drugs given to somebody whose conditions speak against them; what is over or denied is none. */
export function drugsWithConditions(record: CaseRecord, given: readonly Given[]): Finding[] {
  const all = [
    ...given.map(({ drug, path }) => ({ text: drug.drug.text, path })),
    ...entriesOf(record.contrast).map(({ agent }, i) => ({ text: agent.text, path: `contrast[${i}].agent` })),
  ];
  const over = new Set(
    (record.before?.conditions ?? []).flatMap(({ status }, i) =>
      status === 'resolved' || status === 'history' ? [`before.conditions[${i}]`] : [],
    ),
  );
  const conditions = conditionsTold(record).filter(
    ({ path, text }) => !over.has(path) && !isTurned(wordsOf(text)),
  );
  return all.flatMap(({ text, path }) => {
    const rows = drugsIn(text);
    const met = pairs.flatMap(({ is, condition }) =>
      rows.some(is) ? conditions.filter(one => condition.test(one.text)) : [],
    );
    const [first] = met;
    return first
      ? [
          finding('clinical.drug-condition', path, {
            drug: text,
            condition: first.text,
            place: first.path,
          }),
        ]
      : [];
  });
}
