/** Verbs of taking out or changing what was left, as written at the head of a task. Common practice, no source. */
const VERBS = [
  'change',
  'cut',
  'exchange',
  'pull',
  'removal',
  'remove',
  'replace',
  'retrieval',
  'retrieve',
  'withdraw',
];

/** Things beside the device that are changed while it stays. */
const BESIDE = /\b(?:dressing|bag|bottle|cap|caps|position|dose|drug|drugs)\b/i;

/** 'Take the left drain out'. */
const TAKE_OUT = /^take (?:\w+ ){0,4}out\b/;

/** 'Cholangiogram, then remove the drain'. */
const THEN =
  /\b(?:then|and|to) (?:(?:removal|remove|exchange|retrieve|pull|withdraw|replace)\b|take (?:\w+ ){0,4}out\b)/;

/** Whether a task takes a device out or changes it, by its first words or what it comes to; 'Change the dressing' does neither. */
export function comesOut(task: string): boolean {
  const words = task.trim().toLowerCase();
  return (
    (VERBS.some(verb => words === verb || words.startsWith(`${verb} `)) ||
      TAKE_OUT.test(words) ||
      THEN.test(words)) &&
    !BESIDE.test(words)
  );
}

const FOR_GOOD =
  /\b(?:stays?|remains?|left) (?:in place )?(?:for good|for life|forever|permanently|indefinitely)\b|^(?:permanent(?:ly)?|lifelong|for good|for life|never|indefinitely)\b|\bno (?:removal|exchange)\b/i;

/** Whether the condition on which something comes out says that it never does. */
export const staysForGood = (condition: string | undefined): boolean =>
  condition !== undefined && FOR_GOOD.test(condition);
