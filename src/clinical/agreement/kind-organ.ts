import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { everyText, textsBeside } from './every-text.js';
import { differs } from './plan.js';

/** An organ of which a case is called: by its own names, and by whatever may stand for it. Common practice, no source. */
interface Organ {
  readonly strict: RegExp;
  readonly wide: RegExp;
}

const organ = (strict: string, wide = strict): Organ => ({
  strict: new RegExp(`\\b(?:${strict})\\b`, 'i'),
  wide: new RegExp(`\\b(?:${strict}|${wide})`, 'i'),
});

const organs: readonly Organ[] = [
  organ('kidneys?|renal', 'nephr|pyel|ureter|caly|pole|urinary|flank|transplant|graft'),
  organ('liver|hepatic', 'hepat|bil(?:e|iary)|portal|segment|trans(?:jugular|hepatic)|TIPS|lobe|subcapsular'),
  organ(
    'lungs?|pulmonary|bronchial|(?:upper|middle|lower) lobes?|lingula',
    'bronch|intercost|lobe|segment|pleur|chest|thora|hilum',
  ),
  organ('spleen|splenic', 'splen|pole'),
  organ('thyroid|parathyroid', 'neck|lobe|nodule|node'),
  organ('breast', 'mamm|axill|quadrant|node'),
  organ('prostate|prostatic', 'vesic|pelvi|transperineal|perine|internal iliac|PAE'),
  organ('uterine|uterus', 'fibroid|myoma|pelvi|internal iliac|endometri|ovar'),
  organ('ovarian|ovary|ovaries', 'gonadal|pelvi|adnex|internal iliac|varic'),
  organ('testicular|testis|varicocele', 'gonadal|spermatic|scrot|internal pudendal'),
  organ('pancreas|pancreatic', 'peripancrea|pseudocyst|retrogastric|lesser sac|necros'),
  organ('adrenal', 'suprarenal'),
  organ(
    'vertebra(?:e|l (?:body|bodies|biopsy))?|vertebroplasty|kyphoplasty|nerve root|facet',
    'spin|dis[ck]|sacr|lumbar|thoracic|cervical|roots?\\b|paravertebral|epidural|[CTLS]\\d',
  ),
  organ(
    'brain|cerebral|stroke|intracranial',
    'carotid|cerebr|basilar|vertebral arter|M[123]\\b|A[12]\\b|aneurysm|mening|neck|posterior',
  ),
  organ('oesophagus|oesophageal|esophagus|esophageal', 'oesophag|esophag|varic|gastric|thora'),
  organ('stomach|gastrostomy|gastrojejunostomy', 'gastr|stomach|feeding|PEG|RIG|jejun|button|duoden'),
];

/** Where a tumour came from is not where the case was. */
const origin =
  /\b(?:metasta\w+|spread|deposits?) (?:of|from) (?:an? |the )?[\w-]+(?: (?:cell|cancer|carcinoma|tumou?r))*|\b[\w-]+ (?:cell )?(?:cancer|carcinoma|sarcoma|transplant\w*|failure|disease)\b/gi;

const named = (text: string, how: keyof Organ) => organs.filter(one => one[how].test(text));
const strictly = (text: string) => named(text.replace(origin, ' '), 'strict');

/** The kind of case names one organ, and all else another: the kind of another template, or of the next patient. */
export function otherOrgan(record: CaseRecord): Finding[] {
  const { kind, procedure } = record.case;
  const title = procedure?.text ?? '';
  const [own, second] = named(kind, 'strict');
  if (!own || second) return [];
  const places = [
    record.planned?.text ?? '',
    Object.values(record.targets ?? {})
      .map(({ what, lesion }) => `${what.text} ${lesion?.text ?? ''}`)
      .join('; '),
    (record.access ?? []).map(({ site }) => site.text).join('; '),
    entriesOf(record.specimens)
      .map(({ what }) => what.text)
      .join('; '),
    (record.findings ?? []).map(({ text }) => text).join('; '),
    `${record.outcome?.text ?? ''}; ${record.conclusion ?? ''}`,
  ].map(text => text.slice(0, 5000));
  if (places.some(text => own.wide.test(text))) return [];
  // The title may be of the other template too.
  const isTitled = own.wide.test(title);
  const told = isTitled ? places : [title, ...places];
  const least = isTitled ? 3 : 2;
  const other = organs.find(
    one => one !== own && told.filter(text => strictly(text).includes(one)).length >= least,
  );
  if (!other) return [];
  const text = told.find(one => strictly(one).includes(other)) ?? '';
  return [finding('clinical.kind-differs', 'case.kind', { text: kind, other: text })];
}

/** Values and scores are called by organs that the case has nothing to do with. */
const values =
  /\b(?:function|enzymes?|tests?|blood|creatinine|values?|failure|disease|patients?|clinic|ward|unit|team|meeting|board|doctor|surgeon|department|outpatient|specialist|medicine|nurse|transplant\w*)\b/i;

/** A text of what was planned, done or is to be done about an organ that nothing else in the record names: of another case. */
export function otherText(record: CaseRecord): Finding[] {
  const title = record.case.procedure?.text ?? record.case.kind;
  const whole = everyText(record);
  const of = (pattern: RegExp) => whole.filter(({ path }) => pattern.test(path)).map(({ text }) => text);
  // What the case is of, by at least two places.
  const own = organs.filter(
    one =>
      of(/^(?:case|planned|targets|access|specimens|findings|left)/).filter(text =>
        strictly(text).includes(one),
      ).length >= 2,
  );
  if (own.length === 0) return [];
  return whole
    .filter(({ path }) =>
      /^(?:planned|conclusion|outcome\.text|advice\.(?:ward|referrer|patient)|aftercare\[\d+\]\.do)/.test(
        path,
      ),
    )
    .flatMap(({ path, text }) =>
      text
        .split(/[.;]\s|;/)
        .filter(clause => !values.test(clause))
        .flatMap(clause => {
          const named = strictly(clause);
          if (named.length === 0 || named.some(one => own.includes(one))) return [];
          const beside = textsBeside(record, path);
          return named.every(one => !beside.some(other => one.wide.test(other)))
            ? [differs(path, clause.trim(), record.case.procedure ? 'case.procedure' : 'case.kind', title)]
            : [];
        })
        .slice(0, 1),
    );
}
