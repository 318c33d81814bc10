import type { Example } from './corpus/examples.js';
import type { Oracle } from './oracles/oracle.js';

const kinds = ['Device', 'Procedure', 'DeviceUseStatement', 'Patient', 'Observation', 'Bundle'];

/** Best warm time of each validator on the same examples in this run, and how many times ours it takes. */
export async function speeds(
  corpus: readonly Example[],
  ours: Oracle,
  oracles: readonly Oracle[],
): Promise<string> {
  const chosen = kinds.flatMap(kind => sized(corpus.filter(ex => ex.type === kind)));
  const questions = chosen.map(ex => ({ text: ex.text, profiles: [] }));
  const rounds = 12;
  const base = await ours.time(questions, rounds);
  const lines = [`warm milliseconds, best of ${rounds} (times ours)`];
  const columns: [string, number[]][] = [['ours', base]];
  for (const oracle of oracles) columns.push([oracle.name, await oracle.time(questions, rounds)]);
  lines.push(`${'example'.padEnd(52)}${columns.map(([name]) => name.padStart(22)).join('')}`);
  chosen.forEach((ex, i) => {
    const cells = columns.map(([, times]) => cell(times[i], base[i]).padStart(22));
    lines.push(
      `${`${ex.id} (${Math.round(ex.text.length / 1000)} kB)`.slice(0, 51).padEnd(52)}${cells.join('')}`,
    );
  });
  const sums = columns.map(([, times]) => times.reduce((sum, t) => sum + t, 0));
  lines.push(`${'all'.padEnd(52)}${sums.map(sum => cell(sum, sums[0]).padStart(22)).join('')}`);
  return lines.join('\n');
}

/** The smallest, the middle and the largest. */
function sized(pile: readonly Example[]): Example[] {
  const sorted = [...pile].sort((a, b) => a.text.length - b.text.length);
  return [...new Set([sorted[0], sorted[sorted.length >> 1], sorted.at(-1)])].filter(ex => ex !== undefined);
}

function cell(milliseconds: number | undefined, base: number | undefined): string {
  if (milliseconds === undefined || Number.isNaN(milliseconds)) return 'no verdict';
  const ratio = base === undefined ? '' : ` (${(milliseconds / base).toFixed(1)}x)`;
  return `${milliseconds.toFixed(2)}${ratio}`;
}
