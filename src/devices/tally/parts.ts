/**
 * How a part of a device goes its way.
 * - `thread`: a retention thread; it can stay when its catheter comes out, so its fate must be said.
 * - `inner`: comes out on its own (dilator of a sheath, delivery catheter of a stent); its removal must be said.
 * - `half`: of a peel-away sheath; comes out with the sheath, or on its own once that was peeled.
 * - `fragment`: exists only after a cut or a break.
 * - `attached`: goes where its device goes, until something separates it.
 */
export type PartRole = 'thread' | 'inner' | 'half' | 'fragment' | 'attached';

const roles: readonly (readonly [PartRole, RegExp])[] = [
  [
    'thread',
    /\b(retention|locking|lock|retaining)\b.*\b(thread|suture|string|cord|line)\b|^(thread|string)$/,
  ],
  ['half', /\bhal(f|ves)\b/],
  ['fragment', /\b(fragments?|pieces?|broken|stump|remnant|tip)\b/],
  [
    'inner',
    /\b(dilators?|delivery|pusher|stylets?|obturator|stiffener|stiffening|cannula|introducer|trocar|inner)\b/,
  ],
];

/** The role of a part by its kind as written; a kind that nobody knows stays with its device. */
export function partRole(kind: string): PartRole {
  const folded = kind.toLowerCase().replaceAll('_', ' ');
  return roles.find(([, pattern]) => pattern.test(folded))?.[0] ?? 'attached';
}

/** True for parts whose fate must be said once their device came out or they were separated from it. */
export function mustBeSaid(role: PartRole): boolean {
  return role === 'thread' || role === 'inner';
}
