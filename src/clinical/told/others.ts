import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { When } from '../../record/time.js';
import { drugsIn } from '../../trade/drugs/table.js';
import { wordsOf } from '../../trade/words.js';
import { sideWordsIn } from '../agreement/side/words.js';
import { conditionsTold, toldBefore } from '../texts.js';
import type { Written } from './beside.js';
import { NUMBER, numberOf } from './figure.js';
import { clausesOf, isTold } from './texts.js';

/** Strengths, locks, dates, years, numbers by side and scores that two places tell otherwise. */
export function checkOthers(record: CaseRecord, written: readonly Written[]): Finding[] {
  return [
    ...strengths(record, written),
    ...locks(record, written),
    ...dates(record, written),
    ...years(record),
    ...numbersBySide(record, written),
    ...worsePain(record),
    ...doses(record, written),
  ];
}

const differs = (path: string, text: string, value: string, other: string, place: string): Finding =>
  finding('clinical.measurement-differs', path, {
    what: message('measure.told', { text: text.trim() }),
    value,
    other,
    place,
  });

const percent = /(\d+(?:\.\d+)?)\s?%/;

/** The strength of what events inject: five times as strong, or as weak, as the same elsewhere is a slip. */
function strengths(record: CaseRecord, written: readonly Written[]): Finding[] {
  const named = [
    ...(record.events ?? []).map(({ agent }, i) => ({ path: `events[${i}].agent`, text: agent ?? '' })),
    ...entriesOf(record.left).map(({ lock }, i) => ({
      path: `left[${i}].lock.solution`,
      text: lock?.solution ?? '',
    })),
    ...entriesOf(record.left).map(({ set }, i) => ({ path: `left[${i}].set`, text: set ?? '' })),
    ...written
      .filter(({ path }) => /^(?:conclusion|outcome|advice|findings)/.test(path))
      .flatMap(({ path, text }) => clausesOf(text).map(clause => ({ path, text: clause }))),
  ].flatMap(({ path, text }) => {
    const found = percent.exec(text);
    if (!found) return [];
    // The name stands right before its strength: 'polidocanol foam 3 %'.
    const before = wordsOf(text.slice(0, found.index)).slice(-3);
    return before.length === 0 ? [] : [{ path, text, value: Number(found[1]), words: before }];
  });
  return named.flatMap((one, i) => {
    const others = named
      .slice(0, i)
      .filter(two => two.words.some(word => word.length > 4 && one.words.includes(word)));
    const [first] = others;
    const near = others.some(({ value }) => value / one.value < 5 && one.value / value < 5);
    return first && !near
      ? [differs(one.path, one.text, `${one.value} %`, `${first.value} %`, first.path)]
      : [];
  });
}

const fluid =
  /\b(?:heparin|citrate|taurolidine|ethanol|alteplase|urokinase|saline|gentamicin|vancomycin)\b/gi;
const lockWords = /\block(?:ed)?\b/i;

/** What a line is locked with, in words, against what went into it. */
function locks(record: CaseRecord, written: readonly Written[]): Finding[] {
  return entriesOf(record.left).flatMap(({ lock, set }, i) => {
    const known = lock?.solution ?? (/\b(?:filled|lock\w*)\b/i.test(set ?? '') ? set : undefined);
    const inside = new Set((known ?? '').toLowerCase().match(fluid) ?? []);
    if (known === undefined || inside.size === 0) return [];
    return written
      .filter(({ path }) => /^(?:conclusion|outcome|advice|aftercare)/.test(path))
      .flatMap(({ path, text }) => {
        const clause = clausesOf(text).find(part => {
          const found = [...part.matchAll(fluid)].filter(match => isTold(part, match.index, match[0].length));
          return (
            lockWords.test(part) &&
            found.length > 0 &&
            !found.some(([name]) => inside.has(name.toLowerCase()))
          );
        });
        return clause === undefined
          ? []
          : [differs(path, clause, (clause.match(fluid) ?? [])[0] ?? '', known, `left[${i}]`)];
      });
  });
}

const dated =
  /\b((?:[A-Za-z][\w-]*\s+){0,2}[A-Za-z][\w-]*)\s+(?:of|from|since|placed on|put in on|inserted on|done on)\s+((?:19|20)\d\d-\d\d-\d\d)\b/g;

/** The day of something earlier, against that of the device or the attempt of the same name. */
function dates(record: CaseRecord, written: readonly Written[]): Finding[] {
  const known = [
    ...Object.entries(record.devices ?? {}).flatMap(([key, { kind, carried }]) =>
      carried?.date === undefined
        ? []
        : [{ words: wordsOf(kind), date: isoOf(carried.date), place: `devices.${key}.carried` }],
    ),
    ...(record.before?.earlierAttempts ?? []).flatMap(({ what, date }, i) =>
      date === undefined
        ? []
        : [{ words: wordsOf(what), date: isoOf(date), place: `before.earlierAttempts[${i}]` }],
    ),
  ].filter(({ date }) => date.length === 10);
  if (known.length === 0) return [];
  return written.flatMap(({ path, text }) =>
    [...text.slice(0, 2000).matchAll(dated)].flatMap(([whole, words = '', date = '']) => {
      const head = wordsOf(words).at(-1) ?? '';
      const mine = known.filter(one => head.length > 3 && one.words.includes(head));
      const [first] = mine;
      // Any day of the record that is the same was meant.
      return !first || known.some(one => one.date === date) || date >= record.case.date
        ? []
        : [differs(path, whole, date, first.date, first.place)];
    }),
  );
}

const isoOf = (date: When): string => date.iso.slice(0, 10);

const yearTold = /\b(?:in|since|of)\s+((?:19|20)\d\d)\b(?!-)/;

/** The year of an earlier disease, told twice. */
function years(record: CaseRecord): Finding[] {
  const common = new Set(
    wordsOf(
      'left right chronic acute disease history after severe known lung liver kidney heart pulmonary vein artery tumour cancer carcinoma pain syndrome',
    ),
  );
  return (record.before?.conditions ?? []).flatMap(({ text, since }, i) => {
    const year = since === undefined ? '' : isoOf(since).slice(0, 4);
    if (!/^(?:19|20)\d\d$/.test(year)) return [];
    const own = wordsOf(text).filter(word => word.length > 4 && !common.has(word));
    for (const told of [...toldBefore(record), ...conditionsTold(record)]) {
      if (told.path === `before.conditions[${i}]`) continue;
      for (const clause of told.text.split(/[.;,]\s|;/)) {
        const found = yearTold.exec(clause);
        const named = wordsOf(clause.slice(0, found?.index ?? 0)).slice(-4);
        if (found?.[1] !== undefined && found[1] !== year && named.some(word => own.includes(word)))
          return [differs(`before.conditions[${i}].since`, text, year, found[1], told.path)];
      }
    }
    return [];
  });
}

const onSide = new RegExp(
  `\\b(${NUMBER})\\s+(?:(?:coils?|stents?|plugs?|vials?|drains?|screws?|markers?|cores?|samples?|needles?)\\s+)?(?:on|in|at|into) the (left|right)\\b(?! \\w*(?:artery|vein|lobe|lung))`,
  'gi',
);

/** Numbers told for each side, against how many lie there. */
function numbersBySide(record: CaseRecord, written: readonly Written[]): Finding[] {
  const left = entriesOf(record.left).flatMap(({ count, site, device }) => {
    const sides = [...new Set(sideWordsIn(site?.text ?? '').flatMap(word => word.sides))];
    const counted = count ?? record.devices?.[device]?.count;
    return sides.length === 1 && counted !== undefined ? [{ side: sides[0], count: counted }] : [];
  });
  if (new Set(left.map(({ side }) => side)).size < 2) return [];
  return written
    .filter(({ path }) => /^(?:conclusion|outcome\.text|findings|advice)/.test(path))
    .flatMap(({ path, text }) =>
      [...text.matchAll(onSide)]
        .flatMap(([whole, number = '', side = '']) => {
          const there = left.filter(one => one.side === side.toLowerCase()).map(({ count }) => count);
          const total = there.reduce((a, b) => a + b, 0);
          const value = numberOf(number);
          return there.length === 0 || value === total || there.includes(value)
            ? []
            : [differs(path, whole, String(value), String(total), 'left')];
        })
        .slice(0, 1),
    );
}

const painTold = /\bpain\b[^.;]{0,20}?(\d{1,2}) (?:of|out of) 10\b/i;
const forPain =
  /\b(?:vertebroplasty|kyphoplasty|cementoplasty|sacroplasty|injection|block|neurolysis|denervation|nerve|osteoid|epidural)\b/i;

/** More pain after a case that was to take it away and is called a success. */
function worsePain(record: CaseRecord): Finding[] {
  if (record.outcome?.overall !== 'successful' || !forPain.test(record.case.kind)) return [];
  const before = toldBefore(record).flatMap(({ path, text }) => {
    const found = painTold.exec(text);
    return found ? [{ path, value: Number(found[1]) }] : [];
  })[0];
  const condition = record.outcome.condition ?? '';
  const after = painTold.exec(condition);
  return before && after && Number(after[1]) > before.value
    ? [differs('outcome.condition', condition, after[1] ?? '', String(before.value), before.path)]
    : [];
}

const dose = /(\d+(?:\.\d+)?)\s?(mg|IU|units|µg|g)\b/;

/** Doses that are taken once, to begin with, mg. From memory. */
const loading: Readonly<Record<string, readonly number[]>> = {
  clopidogrel: [300, 600],
  prasugrel: [60],
  ticagrelor: [180],
  aspirin: [250, 300, 325, 500],
};

/** A blood thinner told with several times the dose that it was taken in. */
function doses(record: CaseRecord, written: readonly Written[]): Finding[] {
  return entriesOf(record.before?.anticoagulants).flatMap(({ drug, dose: taken }, i) => {
    const own = dose.exec(taken ?? '');
    const names = drugsIn(drug.text).map(({ name }) => name);
    if (!own || names.length === 0) return [];
    // A dose to begin with is followed by others.
    const first = /\bload\w*|\bonce\b(?! (?:a|per|each|every|daily))/i.test(taken ?? '');
    if (first || names.some(name => own[2] === 'mg' && loading[name]?.includes(Number(own[1])))) return [];
    return written
      .filter(({ path }) => /^(?:advice|aftercare|conclusion|outcome)/.test(path))
      .flatMap(({ path, text }) => {
        const clause = clausesOf(text).find(part => {
          const told = dose.exec(part);
          const named = part
            .split(/[\s,]+/)
            .flatMap(word => drugsIn(word))
            .some(({ name }) => names.includes(name));
          if (!told || told[2] !== own[2] || !named) return false;
          const ratio = Number(told[1]) / Number(own[1]);
          return ratio >= 3 || ratio <= 1 / 3;
        });
        return clause === undefined
          ? []
          : [
              finding('clinical.anticoagulant-differs', path, {
                drug: drug.text,
                text: clause,
                other: taken ?? '',
                place: `before.anticoagulants[${i}].dose`,
              }),
            ];
      });
  });
}
