/** The last table of ratios that was accepted: a change may not make one of them half as large again. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const path = join(import.meta.dirname, 'accepted.json');
const MOST = 1.5;

export interface Ratio {
  readonly what: string;
  readonly against: string;
  readonly ratio: number;
}

const nameOf = ({ what, against }: Ratio) => `${what}, against ${against}`;

/** What has become slower than it may; what the accepted table does not have is new and no fault. */
export function slower(ratios: readonly Ratio[]): string[] {
  const accepted = JSON.parse(readFileSync(path, 'utf8')) as Record<string, number>;
  return ratios.flatMap(one => {
    const { ratio } = one;
    const before = accepted[nameOf(one)];
    return before !== undefined && ratio > MOST * before
      ? [`${nameOf(one)}: ${ratio.toFixed(1)}, accepted ${before.toFixed(1)}`]
      : [];
  });
}

export function accept(ratios: readonly Ratio[]): void {
  const table = Object.fromEntries(ratios.map(one => [nameOf(one), Number(one.ratio.toPrecision(3))]));
  writeFileSync(path, `${JSON.stringify(table, undefined, 2)}\n`);
}
