import { decodeLabel } from '../../../src/devices/labels/decode.js';
import { decodeScans } from '../../../src/devices/labels/scans.js';
import type { DecodedLabel, LabelOptions } from '../../../src/devices/labels/types.js';
import { messageOf, remedyOf } from '../../../src/findings/finding.js';

/** Everything that a label is read as, in lines that a person can check. */
export interface Whole {
  /** `di: 09506000117843`, each part of the label but its text, elements and findings. */
  readonly parts: readonly string[];
  /** `10 at 21: AB1 (lot)`. */
  readonly elements: readonly string[];
  /** `severity code path: message -> remedy`. */
  readonly said: readonly string[];
}

const today = '2026-11-25';

export function wholeOf(texts: readonly string[], options: Partial<LabelOptions> = {}): Whole[] {
  const [first = ''] = texts;
  const labels =
    texts.length === 1
      ? [decodeLabel(first, { today, ...options })]
      : decodeScans(texts, { today, ...options });
  return labels.map(lines);
}

function lines({ text, elements, findings, carrierAIDC, readings, ...parts }: DecodedLabel): Whole {
  const known: Record<string, unknown> = {
    ...parts,
    ...(carrierAIDC !== undefined && {
      bytes: JSON.stringify(Buffer.from(carrierAIDC, 'base64').toString('utf8')),
    }),
  };
  return {
    parts: [
      `text: ${JSON.stringify(text)}`,
      ...Object.entries(known).map(([name, value]) => `${name}: ${String(value)}`),
      ...(readings ?? []).map(reading => `reading: ${Object.values(reading).join(' | ')}`),
    ],
    elements: elements.map(({ id, name, raw, at }) => `${id} at ${at}: ${raw} (${name})`),
    said: findings.map(f => `${f.severity} ${f.code} ${f.path}: ${messageOf(f)} -> ${remedyOf(f)}`),
  };
}
