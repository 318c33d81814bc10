import { remembered } from '../../record/remembered.js';
import type { CaseEvent, CaseRecord } from '../../record/schema/record.js';

/** A text of the record that tells what happened in the case. */
export interface Told {
  readonly path: string;
  readonly text: string;
  /** Target that it is about, where the record says so. */
  readonly about?: string | undefined;
  readonly event?: CaseEvent;
  /** `whole`: speaks of the whole case, so that a number in it is the number of the case. */
  readonly scope: 'event' | 'finding' | 'whole';
}

/** Texts that tell what happened. Why the case was done, and what was before it, are no part of it. */
export function toldTexts(record: CaseRecord): readonly Told[] {
  const { outcome, conclusion } = record;
  const texts: Told[] = [];
  const put = (path: string, text: string | undefined, rest: Omit<Told, 'path' | 'text'>) => {
    if (text !== undefined) texts.push({ path, text: text.slice(0, LONGEST), ...rest });
  };
  record.events?.forEach((event, i) => {
    const about = event.target ?? event.across;
    put(`events[${i}].result`, event.result, { scope: 'event', about, event });
    put(`events[${i}].note`, event.note, { scope: 'event', about, event });
  });
  record.findings?.forEach(({ text, about }, i) => {
    put(`findings[${i}].text`, text, { scope: 'finding', about });
  });
  put('outcome.text', outcome?.text, { scope: 'whole' });
  put('outcome.condition', outcome?.condition, { scope: 'finding' });
  put('conclusion', conclusion, { scope: 'whole' });
  return texts;
}

/** Texts that tell why the case was done and what was there before it: what they name is no discovery of the case. */
export function reasonTexts(record: CaseRecord): string {
  const { before, indication } = record;
  return [
    indication.text,
    indication.question ?? '',
    ...(indication.conditions ?? []).map(({ text }) => text),
    before?.imaging ?? '',
    before?.observations ?? '',
    ...(before?.conditions ?? []).map(({ text }) => text),
    ...(before?.earlierAttempts ?? []).flatMap(({ what, result }) => [what, result ?? '']),
    ...Object.values(record.targets ?? {}).flatMap(({ what, lesion }) => [what.text, lesion?.text ?? '']),
    ...(record.access ?? []).map(({ site }) => site.text),
  ].join('\n');
}

/** Characters of a text that are looked at. */
const LONGEST = 5000;

/** A text in parts that each say one thing. */
export const clausesOf: (text: string) => readonly string[] = remembered(text =>
  text.split(/[;.:]\s+|[;\n]|\bbut\b|\bhowever\b|\bwhile\b|\bwhereas\b/i),
);

const past =
  'previous(?:ly)?|prior|earlier|old(?:er)?|former|known|existing|pre-?existing|last (?:year|month|week|time)|ago|' +
  'in (?:19|20)\\d\\d|in (?:january|february|march|april|may|june|july|august|september|october|november|december)|' +
  'on the (?:ct|mri|scan|film) of|since|at the first';
/** 'Tube through the old tract' is no old tube: behind a word only what tells of a time counts. */
const pastAfter =
  'previously|last (?:year|month|week|time)|ago|in (?:19|20)\\d\\d|on the (?:ct|mri|scan|film) of|since|at the first';
const future =
  'if|when|should|would|could|may|might|will|later|next|until|unless|planned|plan|plans|consider\\w*|in case|to be|to follow|' +
  'needs?|needed|request\\w*|wait\\w*|from now|tomorrow|in (?:\\w+ )?(?:days?|weeks?|months?)';
const denial =
  'no|not|nor|never|none|without|neither|avoid\\w*|spared?|instead of|rather than|unnecessary|refused|fail\\w*|unable|' +
  'cannot|could not|unused|attempt\\w*';

const before = new RegExp(`\\b(?:${past}|${future}|${denial})\\b`, 'i');
// 'A cava of 22 mm without clot' denies the clot alone: after the word only what denies the word itself counts.
const deniedAfter = 'not|never|cannot|avoid\\w*|spared?|unnecessary|refused|fail\\w*|unused';
const later = new RegExp(
  `\\b(?:${deniedAfter}|${pastAfter}|may be|might be|could be|should be|will be|to be|planned|needed later|if|only|unless|when|should|later|unchanged|` +
    'removed|taken out|came out|retrieved|in two|in \\w+ weeks?|wanted|considered)\\b',
  'i',
);

/** Whether what stands at a place of a clause is told as done, here and now: not denied, planned, possible or past. */
export function isTold(clause: string, index: number, length: number): boolean {
  // A denial or a plan does not reach over a comma or 'and' with words of their own after it.
  const head =
    clause
      .slice(0, index)
      .split(/,\s+(?=(?:[\w-]+\s+){2,})/)
      .at(-1) ?? '';
  const tail = clause.slice(index + length).split(/,\s|\band\b/)[0] ?? '';
  return !before.test(head) && !later.test(tail);
}
