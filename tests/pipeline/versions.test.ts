import { describe, expect, it } from 'vitest';
import { changesSince, inOrder, versionFindings } from '../../src/pipeline/versions.js';
import {
  addendumText,
  firstText,
  laterText,
  secondText,
  versionOf,
  withdrawnText,
} from '../support/corrected.js';

function codes(text: string, ...previous: readonly string[]): string[] {
  const { record } = versionOf(text);
  const earlier = inOrder(previous.map(versionOf));
  return versionFindings(record, earlier, changesSince(record, earlier)).map(f => f.code);
}

const change = 'change: { of: "1", by: op, at: 2024-09-17T15:50, why: Test }';
const amended = (rest = '') =>
  `{ status: amended, version: 2, author: op, signedAt: "15:55", ${change}${rest} }`;

describe('findings about versions', () => {
  it.each<[string, string, string[], string[]]>([
    ['a first report', firstText, [], []],
    ['an amended one with the one before it', secondText, [firstText], []],
    ['an amended one alone', secondText, [], ['correction.earlier-not-given']],
    ['a withdrawal alone', withdrawnText, [], ['correction.earlier-not-given']],
    ['an addendum alone: it leaves the rest as it is', addendumText, [], []],
    ['an addendum that adds words', addendumText, [firstText], []],
    [
      'an addendum that takes something back',
      laterText(amended().replace('amended', 'appended'), text =>
        text.replace('length: 54 mm', 'length: 45 mm'),
      ),
      [firstText],
      ['correction.addendum-changes'],
    ],
    ['an amendment that changes nothing', laterText(amended()), [firstText], ['correction.nothing-changed']],
    [
      'a final report after a final one',
      secondText.replace('status: amended', 'status: final'),
      [firstText],
      ['correction.status-order'],
    ],
    [
      'a lower number than before',
      secondText.replace('version: 2', 'version: 1'),
      [firstText],
      ['correction.version-order'],
    ],
    [
      'a change of a version that is not the one before',
      secondText.replace('of: "1"', 'of: "5"'),
      [firstText],
      ['correction.of-other-version'],
    ],
    [
      'a version after a withdrawal',
      secondText.replace('version: 2', 'version: 3').replace('of: "1"', 'of: "2"'),
      [firstText, withdrawnText],
      ['correction.after-withdrawn'],
    ],
    ['another case', secondText.replace('SF-2024-0318', 'SF-1'), [firstText], ['correction.other-case']],
    ['another patient', secondText.replace('SFH-51187', 'SFH-1'), [firstText], ['correction.other-patient']],
    [
      'an addendum whose original is not given, when it is corrected',
      secondText.replace('version: 2', 'version: 3').replace('of: "1"', 'of: "2"'),
      [addendumText],
      ['correction.earlier-not-given'],
    ],
    [
      'a change that does not say by whom and when',
      secondText.replace('by: op, at: 2024-09-17T15:50, ', ''),
      [firstText],
      ['correction.change-half-told'],
    ],
  ])('%s', (_, text, previous, expected) => {
    expect(codes(text, ...previous)).toEqual(expected);
  });

  it('takes earlier versions in any order', () => {
    const third = secondText.replace('version: 2', 'version: 3').replace('of: "1"', 'of: "2"');
    expect(codes(third, addendumText, firstText)).toEqual([]);
    expect(codes(third, firstText, addendumText)).toEqual([]);
  });
});
