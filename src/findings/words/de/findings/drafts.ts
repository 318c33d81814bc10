import type { MessageKey } from '../../../message.js';

/** Entwürfe. */
export const draftFindings = {
  'finding.drafts.impossible':
    'Die Änderung von {place} ist nicht möglich: {why}. Keine Änderung dieser Gruppe wurde ausgeführt.',
  'remedy.drafts.impossible': 'Sehen Sie die neueste Fassung des Entwurfs an und ändern Sie diese.',
  'finding.drafts.too-many':
    'Es sind {found} Änderungen; höchstens {limit} gehen zusammen. Keine wurde ausgeführt.',
  'remedy.drafts.too-many': 'Senden Sie sie in kleineren Gruppen.',
  'finding.drafts.no-record': 'Der Text hat keine Felder.',
  'remedy.drafts.no-record': 'Beginnen Sie ihn mit casetally: 1.',
  'finding.drafts.not-written':
    'Die Änderungen ließen sich nicht so in diesen Text schreiben, dass er sich wie gemeint liest. Er blieb, wie er war.',
  'remedy.drafts.not-written':
    'Ändern Sie den Text selbst, oder bringen Sie ihn in eine schlichtere Form (keine Anker, keine doppelten Schlüssel) und versuchen Sie es noch einmal.',
  'finding.drafts.conflict':
    '{place} wurde von zwei Personen geändert: {mine} hier, {theirs} von jemand anderem; vorher stand dort {base}.',
  'remedy.drafts.conflict': 'Einigen Sie sich, was stimmt, und tragen Sie das in die neueste Fassung ein.',
} satisfies Partial<Record<MessageKey, string>>;
