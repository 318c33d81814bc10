import type { MessageKey } from '../../../message.js';

/** Ce qui est introuvable. */
export const missingFindings = {
  'remedy.tally.missing':
    'Suivez les règles locales sur les objets non retrouvés ; acceptez cette ligne une fois que le patient et l’équipe savent ce qui a été fait.',
  'finding.tally.missing-accounted':
    '{what} figure dans « missing », et des événements ou « left » disent où il se trouve.',
  'remedy.tally.missing-accounted':
    'Supprimez la ligne de « missing », ou le retrait ou la ligne de « left » qui n’est pas vrai.',
} as const satisfies Partial<Record<MessageKey, string>>;
