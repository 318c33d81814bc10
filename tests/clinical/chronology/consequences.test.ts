import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Finding, messageOf, stops } from '../../../src/findings/finding.js';
import { byHarm } from '../../../src/findings/harm.js';
import { assessParsed } from '../../../src/pipeline/check.js';
import { parseCaseData } from '../../../src/record/parse.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, exampleText } from '../../support/examples.js';
import { sampled } from '../../support/sampled.js';

// One wrong time is one mistake: whoever mends it must not look for it among its consequences.

interface Timed {
  at: string;
}
interface Example {
  case: { started?: string; ended?: string };
  events?: Timed[];
}

const findingsOf = (data: Example) => assessParsed(parseCaseData(data), unconfiguredSite).findings;

/** `10:12` as `20:12` and `01:12`: a slip of the hand, and of the day. */
const wrong = (time: string): string[] => {
  const hour = Number(/(\d\d):\d\d/.exec(time)?.[1]);
  return [(hour + 10) % 24, 1].map(other => time.replace(/\d\d:/, `${String(other).padStart(2, '0')}:`));
};

/** Findings that are new, the worst for the patient first, without those that follow from another. */
function unfolded(data: Example, before: ReadonlySet<string>): Finding[] {
  return byHarm(findingsOf(data)).filter(
    f => !f.follows && stops(f) && !before.has(`${f.code} ${f.path} ${messageOf(f)}`),
  );
}

describe.each(exampleFiles)('one wrong time in %s', file => {
  const whole: Example = parse(exampleText(file));
  const before = new Set(findingsOf(whole).map(f => `${f.code} ${f.path} ${messageOf(f)}`));
  const { started, ended } = whole.case;

  it('of an event gives at most two errors, the time first', () => {
    const slips = (whole.events ?? []).flatMap(({ at }, index) =>
      wrong(at).map(time => ({ at, index, time })),
    );
    const told = sampled(`wrong times in ${file}`, slips, 10).map(({ at, index, time }) => {
      const copy = structuredClone(whole);
      const event = copy.events?.[index];
      if (event) event.at = time;
      const errors = unfolded(copy, before);
      return { at: `events[${index}].at ${at} as ${time}`, errors: errors.map(f => `${f.code} ${f.path}`) };
    });
    expect(told.length).toBeGreaterThan(0);
    expect(told.filter(({ errors }) => errors.length > 2)).toEqual([]);
    expect(told.filter(({ errors: [first] }) => first !== undefined && !/^record\./.test(first))).toEqual([]);
  });

  it.skipIf(started === undefined || ended === undefined)('of start or end gives at most two', () => {
    const told = [started, ended].flatMap((at = '', index) =>
      wrong(at).map(time => {
        const copy = structuredClone(whole);
        copy.case[index === 0 ? 'started' : 'ended'] = time;
        const errors = unfolded(copy, before);
        return {
          at: `${index === 0 ? 'start' : 'end'} ${at} as ${time}`,
          errors: errors.map(f => `${f.code} ${f.path}`),
        };
      }),
    );
    expect(told.filter(({ errors }) => errors.length > 2).map(({ at }) => at)).toEqual(
      // The times after midnight are then read as those before the case: see `record.start-missing`.
      file === 'embolisation.yaml' ? ['start 23:34 as 09:34'] : [],
    );
  });
});
