import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isInside } from '../../src/devices/types.js';
import { messageOf } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { parseSite } from '../../src/site/parse.js';
import { unconfiguredSite } from '../../src/site/site.js';

const folder = new URL('../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, folder), 'utf8');
const whole = readdirSync(folder).filter(
  name => /\.(yaml|json)$/.test(name) && name !== 'site.yaml' && name !== 'mistaken.yaml',
);

describe('examples, checked whole', () => {
  it('the site configuration reads without a fault', () => {
    expect(parseSite(read('site.yaml'))).toMatchObject({ findings: [], site: { casetallySite: 1 } });
  });

  it.each(whole)('%s has no error', name => {
    const { findings } = checkCase(read(name), unconfiguredSite);
    expect(
      findings
        .filter(f => f.severity === 'error' || f.severity === 'fatal')
        .map(f => `${f.line}: ${messageOf(f)}`),
    ).toEqual([]);
  });

  it.each(whole)('%s has a clean tally and no warning about devices that nobody answered for', name => {
    const { findings } = checkCase(read(name), unconfiguredSite);
    const ofDevices = findings.filter(
      f => f.severity === 'warning' && /^(tally|size|label|device)\./.test(f.code),
    );
    expect(ofDevices.filter(f => !f.acknowledged).map(f => `${f.line}: ${messageOf(f)}`)).toEqual([]);
    const expected: Record<string, string[]> = {
      'coaxial-exchange-short-wire.yaml': ['size.wire-too-short'],
      'fractured-wire-tip.yaml': ['tally.retained'],
    };
    expect(ofDevices.map(f => f.code)).toEqual(expected[name] ?? []);
  });

  it.each<[string, string[]]>([
    ['abscess-drain.yaml', ['drain']],
    ['biliary-drainage-and-stent.yaml', ['stent', 'drain']],
    ['caval-filter-retrieval-failed.yaml', ['filter']],
    ['coaxial-exchange-short-wire.yaml', []],
    ['cut-locking-drain.yaml', []],
    ['dialysis-circuit-angioplasty.yaml', ['suture']],
    ['embolisation.yaml', ['beads', 'coils', 'finish']],
    ['fractured-wire-tip.yaml', ['fine1.tip', 'neph']],
    ['gastrostomy.json', ['anchors', 'tube']],
    ['liver-biopsy.yaml', ['sponge']],
    ['nephrostomy-exchange-transplant.yaml', ['drain']],
    ['ureteric-stent-tumour.yaml', ['stent', 'neph']],
  ])('what stays after %s is %j', (name, inside) => {
    const { assessment } = checkCase(read(name), unconfiguredSite);
    const left = assessment?.tally.entries.filter(e => isInside(e.state)) ?? [];
    // Parts that stay on a device that stays are not told again.
    const told = left.filter(
      e => e.part === undefined || !left.some(d => d.device === e.device && d.part === undefined),
    );
    expect(told.map(e => (e.part === undefined ? e.device : `${e.device}.${e.part}`)).sort()).toEqual(
      [...inside].sort(),
    );
  });

  it('every mistake planted in mistaken.yaml is found on its line', () => {
    const lines = read('mistaken.yaml').split('\n');
    const found = new Set(checkCase(read('mistaken.yaml'), unconfiguredSite).findings.map(f => f.line));
    const missed = lines.filter((line, index) => /^\s*# planted:/.test(line) && !found.has(index + 2));
    expect(missed).toEqual([]);
  });
});
