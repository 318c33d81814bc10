import type { agreementWording } from '../../wording/agreement.js';
import type { WarningKey } from '../reported.js';

/** Avisos sobre dos lugares que dicen cosas distintas. */
export const agreementWarnings: Record<WarningKey<typeof agreementWording>, string> = {
  'finding.clinical.side-differs': '«{text}» da el lado como {side}; {other} lo da como {otherSide}.',
  'finding.clinical.side-missing': '«{what}»: el lado indicado es {side}, y se espera {other}.',
  'finding.clinical.contrast-differs':
    'El contraste total es {total}; los eventos inyectan {events} ({place}).',
  'finding.clinical.contrast-route-differs':
    'El contraste consta como {route}; lo que se abordó es «{entered}».',
  'finding.clinical.outcome-differs': 'El resultado global es {overall}; {place} dice «{other}».',
  'finding.clinical.complication-unsaid': '«{text}» habla de una complicación y no consta ninguna.',
  'finding.clinical.fluoroscopy-longer':
    'La fluoroscopia de {time} dura más que el procedimiento, que duró {lasted}.',
  'finding.clinical.radiation-unsaid': 'Se usaron rayos X ({place}) y no consta la radiación.',
  'finding.clinical.haemoglobin-fall':
    'La hemoglobina bajó de {from} a {to}, {fall} g/L, y no consta ningún sangrado.',
  'finding.clinical.measurement-differs': '{what} es {value} aquí y {other} en {place}.',
  'finding.clinical.specimen-differs':
    'Las muestras dicen {specimens}; los eventos dicen {events} ({place}).',
  'finding.clinical.closure-differs':
    'El acceso «{site}» consta como cerrado con «{closure}», y ningún dispositivo o evento en él lo confirma.',
  'finding.clinical.kind-differs': '«{text}» no concuerda con lo demás que consta: {other}.',
  'finding.clinical.level-differs': '«{text}» nombra otro nivel o segmento que «{other}» ({place}).',
  'finding.clinical.sex-differs': '«{text}» no concuerda con el sexo que consta, {sex}.',
  'finding.clinical.age-differs':
    '«{text}» no concuerda con la fecha de nacimiento {birth}, que da {age} años el día del procedimiento.',
  'finding.clinical.pregnancy-differs':
    'La pregunta sobre el embarazo se contestó «{answer}», y «{text}» lo contradice.',
  'finding.clinical.entered-twice':
    '{what} consta dos veces con los mismos valores y hora, primero en {first}.',
  'finding.clinical.aftercare-device-out':
    '«{task}» trata {device:de}, que no queda dentro tras el procedimiento.',
  'finding.tally.left-differs': '«left» dice {left}; el evento de las {time} dice {event}.',
  'finding.tally.not-deployed': '{device} queda colocado y ningún evento lo libera en el paciente.',
  'finding.tally.not-locked': '{device} queda colocado y ningún evento bloquea su bucle.',
  'finding.tally.other-side':
    'A las {time}, {device} va sobre {wire:def} y por {sheath:def}; la guía pasa por {other}.',
  'finding.tally.not-filled':
    '{device} se sujeta con su balón y queda colocado, pero ningún evento llena el balón.',
  'finding.tally.flushed-before':
    '{device} se queda, y su único lavado, a las {time}, es anterior a su colocación.',
};
