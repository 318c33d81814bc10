import type { MessageKey } from '../../../message.js';

/** Borradores. */
export const draftFindings = {
  'finding.drafts.impossible':
    'El cambio de {place} no es posible: {why}. No se hizo ningún cambio de este grupo.',
  'remedy.drafts.impossible': 'Mire la versión más reciente del borrador y cambie esa.',
  'finding.drafts.too-many':
    'Hay {found} cambios; como máximo se pueden hacer {limit} juntos. No se hizo ninguno.',
  'remedy.drafts.too-many': 'Envíelos en grupos más pequeños.',
  'finding.drafts.no-record': 'El texto no tiene campos.',
  'remedy.drafts.no-record': 'Empiécelo con casetally: 1.',
  'finding.drafts.not-written':
    'Los cambios no se pudieron escribir en este texto de modo que se lea como se quiere. Quedó como estaba.',
  'remedy.drafts.not-written':
    'Haga el cambio en el propio texto, o dele una forma más sencilla (sin anclas ni claves dobles) e inténtelo de nuevo.',
  'finding.drafts.conflict':
    '{place} fue cambiado por dos personas: {mine} aquí, {theirs} por otra persona; antes era {base}.',
  'remedy.drafts.conflict': 'Pónganse de acuerdo en lo correcto y escríbalo en la versión más reciente.',
} satisfies Partial<Record<MessageKey, string>>;
