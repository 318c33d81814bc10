import { run } from '../../src/cli/program.js';

/** What a command came to, and what it wrote to each stream. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command within the process of the tests. @param columns how wide its lines may be; as a pipe when absent */
export async function casetally(args: readonly string[], columns?: number): Promise<Ran> {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await run(args, {
    out: text => void out.push(text),
    err: text => void err.push(text),
    color: false,
    ...(columns !== undefined && { columns }),
  });
  return { code, out: out.join(''), err: err.join('') };
}

/** The same with each gap one blank, wherever lines were broken. */
export const flat = ({ code, out, err }: Ran): Ran => ({
  code,
  out: out.replaceAll(/\s+/g, ' '),
  err: err.replaceAll(/\s+/g, ' '),
});
