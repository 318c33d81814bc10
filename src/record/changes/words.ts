/** A run of words that stayed, was struck or was added. */
export interface WordChange {
  readonly kind: 'same' | 'struck' | 'added';
  readonly text: string;
}

/** Above this many pairs of words the two texts are shown one after the other. */
const MAX_PAIRS = 4_000_000;

/** Which words of a text were struck and which were added: the longest run of words in common stays. */
export function wordChanges(before: string, after: string): WordChange[] {
  const a = tokens(before);
  const b = tokens(after);
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) tail++;
  const parts = [
    ...a.slice(0, head).map(same),
    ...middle(a.slice(head, a.length - tail), b.slice(head, b.length - tail)),
    ...a.slice(a.length - tail).map(same),
  ];
  return joined(parts);
}

const same = (text: string): WordChange => ({ kind: 'same', text });
const struck = (text: string): WordChange => ({ kind: 'struck', text });
const added = (text: string): WordChange => ({ kind: 'added', text });

/** Words, each with the white space before it. */
function tokens(text: string): string[] {
  return text.match(/\s*\S+/g) ?? [];
}

function middle(a: readonly string[], b: readonly string[]): WordChange[] {
  if (a.length * b.length > MAX_PAIRS) return [...a.map(struck), ...b.map(added)];
  // common[i][j]: how many words a from i on and b from j on have in common.
  const width = b.length + 1;
  const common = new Uint32Array((a.length + 1) * width);
  const at = (i: number, j: number) => common[i * width + j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      common[i * width + j] = a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  const parts: WordChange[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const [old, fresh] = [a[i], b[j]];
    if (old !== undefined && old === fresh) {
      parts.push(same(old));
      i++;
      j++;
    } else if (old !== undefined && (fresh === undefined || at(i + 1, j) >= at(i, j + 1))) {
      parts.push(struck(old));
      i++;
    } else if (fresh !== undefined) {
      parts.push(added(fresh));
      j++;
    }
  }
  return parts;
}

/** Neighbours of one kind become one run; the white space at the start of the text goes. */
function joined(parts: readonly WordChange[]): WordChange[] {
  const runs: { kind: WordChange['kind']; text: string }[] = [];
  for (const { kind, text } of parts) {
    const last = runs.at(-1);
    if (last?.kind === kind) last.text += text;
    else runs.push({ kind, text });
  }
  return runs.map(run => ({ kind: run.kind, text: run.text.trim() }));
}
