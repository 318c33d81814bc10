import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { preparedExample } from '../../support/examples.js';

/** A report of a whole case of a field that no example covers, on one line. */
const report = (name: string, reader: 'patient' | 'ward' | 'record') => {
  const url = new URL(`../../plants/cases/${name}.yaml`, import.meta.url);
  const { reports } = preparedExample(name, undefined, readFileSync(url, 'utf8'));
  return (reports[reader]?.text ?? '').replace(/\s+/g, ' ');
};

describe('reports of fields outside the examples', () => {
  it('make no appointment about what stays for good, nor of a drug', () => {
    const letter = report('iliac-kissing-stents', 'patient');
    expect(letter).toContain(
      'Our team will see you about this: a stent. The planned day is Tuesday 1 April 2025.',
    );
    expect(letter).not.toContain('You will be told the day');
    expect(letter).not.toContain('Your family doctor will see you');
    expect(report('vertebroplasty', 'patient')).not.toContain('will see you about this');
  });

  it('call cement cement: it stops no blood, and nothing runs through it', () => {
    const letter = report('vertebroplasty', 'patient');
    expect(letter).toContain('Bone cement It makes a weak bone firm.');
    expect(letter).not.toContain('block the blood flow');
    expect(report('vertebroplasty', 'record')).not.toContain('through bone cement');
  });

  it('give no side to a middle target that was reached from the right', () => {
    for (const name of ['caval-filter', 'tips']) {
      expect(report(name, 'ward')).not.toMatch(/Side (?:Right|Left|Both)/);
      expect(report(name, 'record')).toMatch(/Not recorded.*Case Side/);
    }
  });

  it('say who arranges a visit to another place, and how often by intervals', () => {
    expect(report('stopped-prostate', 'patient')).toContain(
      'The doctor who sent you to us will arrange a visit for you.',
    );
    expect(report('tips', 'ward')).toContain('How often: every 8 hours');
  });
});
