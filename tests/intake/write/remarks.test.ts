import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Proposal } from '../../../src/intake/claims.js';
import { kitContribution, readKit } from '../../../src/intake/kits/read.js';
import { proposalsIn, remarkOf } from '../../../src/intake/write/remarks.js';
import { bringIn } from '../../../src/pipeline/intake/bring-in.js';
import { unconfiguredSite } from '../../../src/site/site.js';

const NOW = '2024-05-02T08:12:00.000Z';
const folder = join(import.meta.dirname, '..', '..', '..', 'examples', 'kits');

describe('proposals that stand in a text as remarks', () => {
  it.each(readdirSync(folder))('are read as %s gave them', file => {
    const { kit } = readKit(readFileSync(join(folder, file)));
    if (!kit) throw new Error('no kit');
    const given = kitContribution(kit, NOW).values.filter(({ as }) => as.startsWith('propose'));
    const { text = '' } = bringIn(
      'casetally: 1\n',
      { contributions: [], kits: [kit] },
      unconfiguredSite,
      NOW,
    );
    expect(proposalsIn(text)).toEqual(
      expect.arrayContaining(
        given.map(({ path, value }) => ({ from: `kit ${kit.name}`, path: path.join('.'), value })),
      ),
    );
    expect(proposalsIn(text)).toHaveLength(given.length);
    // Ends of lines as another system writes them.
    expect(proposalsIn(text.replaceAll('\n', '\r\n'))).toEqual(proposalsIn(text));
  });

  it('are the same after writing, whatever they hold', () => {
    const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 }).map(one => one.trim());
    const said = text.filter(one => /\S/.test(one) && !/[\p{Cc}\u2028\u2029\uFEFF\uD800-\uDFFF]/u.test(one));
    fc.assert(
      fc.property(said, said, fc.option(said), (drug, dose, words) => {
        const proposal: Proposal = {
          path: ['drugs'],
          value: { drug, dose },
          source: { from: 'kit', at: NOW, by: 'Day case' },
          entry: true,
          ...(words !== null && { said: words }),
        };
        const read = proposalsIn(`casetally: 1\n  # ${remarkOf(proposal).text}\n`);
        expect(read).toEqual([{ from: 'kit Day case', path: 'drugs', value: { drug, dose } }]);
      }),
      { numRuns: 300 },
    );
  });

  it.each([
    '# from the ward, by phone: she is nil by mouth',
    '# from the kit A, drugs: { drug: lidocaine',
    '# from the kit A, drugs:',
    'conclusion: "# from the kit A, drugs: { drug: x }"',
    '# drugs: { drug: lidocaine }',
    '# from the kit A, drugs: &a [*a]',
  ])('are not what people remark: %s', line => {
    const found = proposalsIn(`casetally: 1\n${line}\n`);
    expect(found.filter(({ path }) => path !== 'by phone')).toEqual([]);
  });
});
