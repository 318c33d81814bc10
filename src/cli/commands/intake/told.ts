import { isJson } from '../../../intake/write/splice.js';
import { type BroughtIn, mergedRows } from '../../../pipeline/intake/bring-in.js';
import { counted, jsonText, type Output } from '../../output.js';
import { filled } from '../../terminal/fill.js';
import { findingsText } from '../../terminal/findings.js';

/** Says what was brought in, and then what somebody has to look at. */
export function tell(
  file: string,
  brought: BroughtIn,
  written: boolean,
  source: string | Uint8Array,
  { json, ...flags }: { readonly json?: boolean; readonly text?: string },
  output: Output,
): void {
  const { merged, findings } = brought;
  if (json) {
    output.out(jsonText({ file, written, ...flags, ...mergedRows(merged), findings }));
    return;
  }
  const noRemarks = merged.proposals.length > 0 && isJson(String(brought.text ?? ''));
  const parts = [
    counted(merged.set.length + merged.add.length, 'value', 'values'),
    `${counted(merged.proposals.length, 'proposal', 'proposals')} ${noRemarks ? 'left out: JSON has no comments' : 'as comments'}`,
    ...(merged.held.length > 0 ? [`${counted(merged.held.length, 'source', 'sources')} held back`] : []),
  ];
  output.err(filled(`${file}: ${written ? 'written' : 'not written'}; ${parts.join(', ')}`, output.columns));
  output.err(findingsText(file, findings, output, { source }));
}
