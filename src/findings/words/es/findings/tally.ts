import type { MessageKey } from '../../../message.js';

/** El recuento de lo que entra y lo que sale. */
export const tallyFindings = {
  'remedy.device.kind-unknown': '{suggestion}',
  'finding.device.kind-read': '«{kind}» ({device}) se lee como «{row}».',
  'remedy.device.kind-read':
    'Si no era eso, escriba el tipo tal como está en la tabla, o indique su familia.',
  'finding.acknowledged.nothing': 'Nada da aquí el hallazgo «{code}»{about} que el registro acepta.',
  'remedy.acknowledged.nothing':
    'Quite la línea de acknowledged, o corrija su código o aquello a lo que se refiere.',
  'remedy.acknowledged.error': 'Corrija lo que el error indica.',
  'finding.tally.no-device': 'El evento «{verb}» de las {time} no dice de qué producto se trata.',
  'remedy.tally.no-device': 'Añada device con su clave.',
  'finding.tally.not-inserted': '{device} {done} a las {time}, pero nada anterior dice que entrara.',
  'remedy.tally.not-inserted':
    'Añada la inserción, o corrija la hora o la clave; indique carried si se colocó en un caso anterior.',
  'finding.tally.already-out': '{device} {done} a las {time}, pero salió a las {earlier}.',
  'remedy.tally.already-out': 'Quite uno de los dos eventos, corrija una hora, o añada que entró de nuevo.',
  'finding.tally.inserted-twice':
    '{device}: consta insertado a las {time}, pero ya estaba dentro (desde {earlier}) y no consta que se retirara.',
  'remedy.tally.inserted-twice':
    'Añada la retirada entre ambas horas, o dé al segundo producto una entrada propia.',
  'finding.tally.over-not-inside': '{device} {done} sobre {other} a las {time}, pero {other} {where}.',
  'remedy.tally.over-not-inside': 'Indique sobre qué pasó, o corrija el orden de los eventos.',
  'finding.tally.no-wire':
    'A las {time} {device} se cambia sobre {other}, pero {other} {where}: ninguna guía mantenía la vía.',
  'remedy.tally.no-wire': 'Indique la guía que estaba pasada, añada su inserción, o corrija las horas.',
  'finding.tally.through-not-inside': '{device} {done} por {other} a las {time}, pero {other} {where}.',
  'remedy.tally.through-not-inside': 'Indique por dónde pasó, o corrija el orden de los eventos.',
  'finding.tally.lumen-taken':
    'A las {time} {device} pasa por {host} junto a {other}: juntos miden {both}, la luz admite {lumen}; solo cabe uno.',
  'remedy.tally.lumen-taken':
    'Añada antes la retirada de lo que ocupa la luz ({other}), o indique que uno va sobre el otro.',
  'finding.tally.exchange-unsaid': 'A las {time} {device} entra por un cambio, pero nada dice qué salió.',
  'remedy.tally.exchange-unsaid': 'Añada replaces con la clave del producto que salió, o escriba insert.',
  'finding.tally.not-inflated':
    '{device}: consta desinflado a las {time}, pero nada anterior dice que se inflara.',
  'remedy.tally.not-inflated': 'Añada el inflado, o corrija las horas.',
  'remedy.tally.removed-inflated': 'Añada el desinflado.',
  'remedy.tally.removed-locked': 'Añada unlock, o cut si se cortó el hilo.',
  'remedy.tally.thread-undeclared': 'Añada el hilo a parts y diga qué fue de él, o acepte que no lo hay.',
  'finding.tally.discarded-inside':
    '{device}: a las {time} consta desechado sin usar, pero {inside} sigue dentro y no queda ninguno por desechar.',
  'remedy.tally.discarded-inside': 'Añada antes la retirada, o corrija el número.',
  'finding.tally.count-over':
    '{device}: a las {time} el evento ({done}) cuenta {number}, pero solo pueden ser {there}.',
  'remedy.tally.count-over': 'Corrija count en el evento o en el producto.',
  'finding.tally.count-differs':
    '{device}: a las {time} se cuentan {number}; según los eventos hay {inside} dentro y {outside} fuera.',
  'remedy.tally.count-differs': 'Cuente de nuevo; corrija count en los eventos o en el producto.',
  'finding.tally.count-removed': '{device}: salen {number} a las {time}, pero solo hay {inside} dentro.',
  'remedy.tally.count-removed': 'Corrija los números de lo que entró y lo que salió.',
  'finding.tally.count-unaccounted': '{device}: ningún evento dice qué fue de {number} del total de {total}.',
  'remedy.tally.count-unaccounted':
    'Añada count a los eventos que los introdujeron, o un evento discard o count para los demás.',
  'finding.tally.no-events':
    '{device} cuenta como usado, y ningún evento dice que entrara o que se desechara.',
  'remedy.tally.no-events': 'Añada los eventos, o ponga use en opened unused, unopened o failed.',
  'finding.tally.unused-but-used': '{device} consta como «{use}», pero {where}.',
  'remedy.tally.unused-but-used': 'Corrija use, o la clave del evento.',
  'finding.tally.unaccounted':
    '{device}: entró a las {time}; no consta que se retirara y «left» no lo nombra.',
  'remedy.tally.unaccounted':
    'Mire si salió: añada {removal}, o indique {key} en «left» con purpose temporary o unintended, y until. Con «withdraw» solo se tira hacia atrás: no es retirar del todo.',
  'finding.tally.part-unaccounted': '{part}: {why}; nada dice que saliera ni que se dejara a sabiendas.',
  'remedy.tally.part-unaccounted':
    'Añada un evento remove con device {device} y part {key}, o indique la parte en «left» con purpose temporary o unintended, y until.',
  'finding.tally.pieces': '{device}: son {pieces} trozos desde las {time}, y de {missing} no consta qué fue.',
  'remedy.tally.pieces':
    'Declare cada trozo en parts (kind fragment) y diga qué fue de él, o indique pieces en la retirada que sacó varios.',
  'finding.tally.fragment-unbroken':
    '{part}: ningún evento antes de {time} dice que se cortara o se rompiera.',
  'remedy.tally.fragment-unbroken': 'Añada el evento cut o fracture, o quite la parte de la lista.',
  'finding.tally.missing-part-unsaid':
    '{device}: salió a las {time} y le faltaba una parte; nada dice qué parte ni dónde está.',
  'remedy.tally.missing-part-unsaid':
    'Declare la parte en parts y diga qué fue de ella: retirada, perdida o nombrada en «left».',
  'remedy.tally.damaged':
    'Escriba part missing si falta algo, o acepte el aviso indicando que estaba completo.',
  'finding.tally.left-removed': '«left» nombra {what}, pero salió a las {time}.',
  'remedy.tally.left-removed': 'Quítelo de «left», o corrija el evento que lo retiró.',
  'finding.tally.left-never-in': '«left» nombra {what}, pero ningún evento dice que entrara.',
  'remedy.tally.left-never-in':
    'Quítelo de «left», añada la inserción, o indique carried si se colocó en un caso anterior.',
  'finding.tally.left-count': '{what}: según «left» quedan {said}; según los eventos, {number}.',
  'remedy.tally.left-count': 'Cuéntelos en la última imagen; después corrija el número o los eventos.',
  'remedy.tally.left-count-missing': 'Añada count a esa línea, para que el número conste dos veces.',
  'finding.tally.left-twice': '«left» habla dos veces de {what}; la primera es {first}.',
  'remedy.tally.left-twice': 'Deje una de las dos líneas.',
  'finding.tally.purpose-missing':
    '«left» nombra {what}, que no está hecho para quedarse, sin decir si se quiere que quede.',
  'remedy.tally.purpose-missing': 'Añada purpose: temporary, intended o unintended.',
  'remedy.tally.no-condition': 'Añada until o latest en left, o una tarea para ello en aftercare.',
  'remedy.tally.retained':
    'Diga en complications qué se hizo al respecto y en advice qué se le dijo al paciente, y acepte esta línea.',
  'finding.tally.retained-unsaid': '{what}: se perdió a las {time} y no salió; «left» no lo nombra.',
  'remedy.tally.retained-unsaid': 'Indíquelo en «left» con purpose unintended, site y until.',
  'finding.tally.carried-unsaid':
    '{device}: estaba dentro antes del caso; no consta que se retirara y «left» no lo nombra.',
  'remedy.tally.carried-unsaid':
    'Si se queda, indique {key} en «left» con until o latest; si salió, añada {removal}.',
  'remedy.tally.carried-case':
    'Añada en carried el identificador del caso anterior, para que se pueda cerrar su entrada.',
} as const satisfies Partial<Record<MessageKey, string>>;
