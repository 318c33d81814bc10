import type { next as en } from '../en/next.js';

/** Was mit einem Eintrag des Ausgangs als Nächstes geschieht. */
export const next: Record<keyof typeof en, string> = {
  'next.sending': 'wird gerade gesendet',
  'next.person': 'braucht einen Menschen: casetally outbox show {id}',
  'next.behindCase': 'wartet hinter {before} desselben Falls: casetally outbox show {before}',
  'next.behindPatient': 'wartet hinter {before} desselben Patienten: casetally outbox show {before}',
  'next.behindParked':
    'wartet hinter {before} desselben Falls; dieser braucht einen Menschen: casetally outbox show {before}',
  'next.paused':
    'wartet, weil {destination} einen Menschen braucht ({reason}); ist das behoben: casetally outbox retry {id}',
  'next.again': 'geht erneut {time}',
  'next.asked': 'ob es angekommen ist, ist nicht bekannt; {destination} wird {time} gefragt',
  'next.soon': 'beim nächsten Lauf des Versands oder mit casetally outbox retry',
  'next.at': 'um {time} (in {seconds} s)',
  'next.atAsked': 'um {time} (in {seconds} s; der Server bat um Zeit)',
  'next.clock': 'um {time}',
  'next.on': '{time} am {date}',
};
