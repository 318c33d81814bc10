import type { next as en } from '../en/next.js';

/** Ce qui arrive ensuite à un envoi. */
export const next: Record<keyof typeof en, string> = {
  'next.sending': 'envoi en cours',
  'next.person': 'attend une personne : casetally outbox show {id}',
  'next.behindCase': 'attend {before} du même dossier : casetally outbox show {before}',
  'next.behindPatient': 'attend {before} du même patient : casetally outbox show {before}',
  'next.behindParked':
    'attend {before} du même dossier, qui attend une personne : casetally outbox show {before}',
  'next.paused':
    'attend parce que {destination} demande une personne ({reason}) ; une fois réglé, casetally outbox retry {id}',
  'next.again': 'nouvel essai {time}',
  'next.asked': 'on ne sait pas si c’est arrivé ; {destination} sera interrogé {time}',
  'next.soon': 'au prochain passage du service d’envoi ou avec casetally outbox retry',
  'next.at': 'à {time} (dans {seconds} s)',
  'next.atAsked': 'à {time} (dans {seconds} s, à la demande du serveur)',
  'next.clock': 'à {time}',
  'next.on': '{time} le {date}',
};
