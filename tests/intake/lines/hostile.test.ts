import { describe, expect, it } from 'vitest';
import { LONGEST_LINE, MOST_LINES, readLines } from '../../../src/intake/lines/read.js';
import { piecesOf } from '../../../src/intake/lines/text/pieces.js';

const codes = (lines: readonly string[]) => readLines(lines).findings.map(({ code }) => code);

describe('hostile lines', () => {
  it('a line of a megabyte is not read, and said to be too long', () => {
    const { readings, findings } = readLines(['wire '.repeat(200_000)]);
    expect(findings.map(({ code, path }) => [code, path])).toEqual([['lines.too-long', 'lines[0]']]);
    expect(readings[0]?.line.length).toBeLessThan(100);
    expect(readings[0]?.events).toEqual([]);
  });

  it('of 100 000 lines the first are read, and the rest is said', () => {
    const { readings, findings } = readLines(Array.from({ length: 100_000 }, () => '?'));
    expect(readings.length).toBe(MOST_LINES);
    expect(findings.at(-1)?.code).toBe('lines.too-many');
  });

  it('control characters and halves of pairs are refused, marks that say nothing are not passed over', () => {
    for (const line of ['10:00 wire\u0000 out', '10:00 \u001b[31mwire out', '10:00 wire \ud800 out'])
      expect(codes([line]), JSON.stringify(line)).toEqual(['lines.unprintable']);
    const [reading] = readLines(['10:00 wire § out'], {
      devices: [{ key: 'wire', kind: 'guidewire', inside: 1 }],
    }).readings;
    expect([reading?.certainty, reading?.unknown.map(({ text }) => text)]).toEqual(['uncertain', ['§']]);
  });

  it('empty and odd lines give a reading each, and no event', () => {
    for (const line of [
      '',
      ' ',
      '.',
      ',,,,',
      '10:00',
      'and and and',
      'no no no',
      '0',
      '"',
      '()',
      'x',
      '×',
      'no',
      ', no',
    ])
      expect(readLines([line]).readings[0]?.events, line).toEqual([]);
  });

  it('no line is taken for the name of something of the language', () => {
    for (const word of ['constructor', '__proto__', 'toString', 'hasOwnProperty'])
      expect(readLines([`10:00 ${word} in over the ${word}`]).readings[0]?.certainty).not.toBe('understood');
  });

  /** Processor time, least of several runs. */
  function cost(work: () => unknown): number {
    return Math.min(
      ...Array.from({ length: 3 }, () => {
        const start = process.cpuUsage();
        work();
        return process.cpuUsage(start).user;
      }),
    );
  }

  it('repeats cost what their length does: four times as long is far from sixteen times the work', () => {
    const repeats = [
      '5 ',
      'five hundred ',
      'oh three five ',
      '1x',
      '0.0',
      'at ten ',
      'no, ',
      'over ',
      '1-',
      "a'",
      '8 by ',
      'and ',
    ];
    for (const one of repeats) {
      const of = (length: number) => one.repeat(Math.ceil(length / one.length)).slice(0, length);
      const [short, long] = [of(LONGEST_LINE), of(4 * LONGEST_LINE)];
      cost(() => piecesOf(short));
      // Linear is 4, quadratic 16. Others use the machine as well: one of three tries is enough.
      const isNear = () => cost(() => piecesOf(long)) / cost(() => piecesOf(short)) < 10;
      expect(isNear() || isNear() || isNear(), one).toBe(true);
    }
  });

  it('the longest line of the worst kind costs a bounded number of usual lines', () => {
    const usual = '10:12 5 French angled catheter over the wire, across the narrowing into the duodenum';
    const devices = [{ key: 'wire', kind: 'guidewire', inside: 1 }];
    const base = cost(() =>
      readLines(
        Array.from({ length: 10 }, () => usual),
        { devices },
      ),
    );
    for (const one of ['wire ', 'wire, ', 'wire and ', 'over the wire ', 'two coils ', '5 Fr '])
      expect(
        cost(() => readLines([one.repeat(80).slice(0, LONGEST_LINE)], { devices })) / base,
        one,
      ).toBeLessThan(40);
  });
});
