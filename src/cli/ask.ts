import { createInterface } from 'node:readline/promises';

/** Asks a person at the terminal; undefined where there is none. */
export async function askYes(question: string): Promise<boolean | undefined> {
  const { stdin, stderr } = process;
  if (!stdin.isTTY || !stderr.isTTY) return undefined;
  const lines = createInterface({ input: stdin, output: stderr });
  try {
    return /^y(es)?$/i.test((await lines.question(`${question} [y/N] `)).trim());
  } finally {
    lines.close();
  }
}
