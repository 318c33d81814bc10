import { createInterface } from 'node:readline';
import { decodeLabel } from '../../devices/labels/decode.js';
import { labelCommandResult, labelExitCode } from '../../devices/labels/result.js';
import { CasetallyError } from '../../findings/errors.js';
import { findingRows } from '../../findings/finding.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';

interface LabelFlags {
  readonly json?: boolean;
  readonly stdin?: boolean;
}

const today = () => new Date().toISOString().slice(0, 10);

/** Reads labels from the call or from standard input; the exit code is that of the worst label. */
export async function label(labels: readonly string[], flags: LabelFlags, output: Output): Promise<ExitCode> {
  if (flags.stdin) return fromInput(output);
  if (labels.length === 0) throw new CasetallyError('usage', 'name a label in quotes, or give --stdin.');
  const decoded = labels.map(text => decodeLabel(text, { today: today() }));
  if (flags.json) {
    const results = decoded.map(labelCommandResult);
    output.out(jsonText(results.length === 1 ? results[0] : results));
  } else {
    for (const one of decoded) {
      const { findings, ...parts } = labelCommandResult(one);
      const rows = Object.entries(parts).map(([name, value]) => `${name.padEnd(13)} ${value}\n`);
      output.out(`${rows.join('')}${findingsText('label', findings, output)}`);
    }
  }
  return labelExitCode(...decoded);
}

/** A label a line, an object a line; an empty line is skipped. */
async function fromInput(output: Output): Promise<ExitCode> {
  let worst: ExitCode = exitCodes.ok;
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    if (line === '') continue;
    const decoded = decodeLabel(line, { today: today() });
    output.out(`${JSON.stringify(labelCommandResult(decoded), findingRows)}\n`);
    const code = labelExitCode(decoded);
    if (code > worst) worst = code;
  }
  return worst;
}
