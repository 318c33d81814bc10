import type { next as en } from '../en/next.js';

/** Lo que ocurre después con un elemento de la bandeja de salida. */
export const next: Record<keyof typeof en, string> = {
  'next.sending': 'se está enviando',
  'next.person': 'necesita a una persona: casetally outbox show {id}',
  'next.behindCase': 'espera detrás de {before} del mismo caso: casetally outbox show {before}',
  'next.behindPatient': 'espera detrás de {before} del mismo paciente: casetally outbox show {before}',
  'next.behindParked':
    'espera detrás de {before} del mismo caso, que necesita a una persona: casetally outbox show {before}',
  'next.paused':
    'espera porque {destination} necesita a una persona ({reason}); una vez resuelto: casetally outbox retry {id}',
  'next.again': 'se envía de nuevo {time}',
  'next.asked': 'no se sabe si llegó; se preguntará a {destination} {time}',
  'next.soon': 'en la próxima pasada del envío o con casetally outbox retry',
  'next.at': 'a las {time} (en {seconds} s)',
  'next.atAsked': 'a las {time} (en {seconds} s; el servidor pidió tiempo)',
  'next.clock': 'a las {time}',
  'next.on': '{time} del {date}',
};
