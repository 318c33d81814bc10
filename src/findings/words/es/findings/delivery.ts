import type { MessageKey } from '../../../message.js';

/** La entrega. */
export const deliveryFindings = {
  'finding.delivery.address-unreadable':
    'La dirección «{address}» no es una dirección http o https de un servidor FHIR.',
  'remedy.delivery.address-unreadable':
    'Escriba la dirección base completa, por ejemplo https://fhir.example.org/r4.',
  'finding.delivery.address-not-plain':
    'La dirección de {host} lleva un nombre de usuario, una consulta o un fragmento; una dirección base no los lleva.',
  'remedy.delivery.address-not-plain':
    'Indique solo la dirección base; las credenciales van en el destino del fichero del centro, por referencia.',
  'finding.delivery.address-not-secure':
    'La dirección de {host} es http sin cifrar: los datos del paciente cruzarían la red y otros podrían leerlos.',
  'remedy.delivery.address-not-secure': 'Use https. Solo se admite http sin cifrar en este mismo equipo.',
  'finding.delivery.not-a-submission':
    'Lo que debería ir a {destination} no es un Bundle de FHIR de tipo transaction.',
  'remedy.delivery.not-a-submission': 'Prepare el caso de nuevo y envíe el submission.json que resulte.',
  'finding.delivery.circle':
    'Los recursos del caso se remiten unos a otros en círculo, lo que {destination} no puede recibir de uno en uno.',
  'remedy.delivery.circle':
    'Ponga mode del destino en transaction, o pida transacciones a quienes lo gestionan.',
  'finding.delivery.over-limit': 'El envío tiene {size}; {destination} admite como máximo {limit}.',
  'remedy.delivery.over-limit':
    'Indique menos imágenes si sobran bytes, o suba el límite del destino si el servidor admite más.',
  'finding.delivery.refused': '{destination} rechazó el envío ({status}); no tiene nada de él.',
  'remedy.delivery.refused': 'Corrija lo que el servidor indica abajo y envíe de nuevo.',
  'finding.delivery.too-large': '{destination} rechazó el envío por ser demasiado grande ({status}).',
  'remedy.delivery.too-large':
    'Indique menos imágenes en el registro, o pida que se suba el límite del servidor.',
  'finding.delivery.redirected':
    '{destination} remite a otra dirección ({status}); las redirecciones no se siguen y no se reenvió nada.',
  'remedy.delivery.redirected':
    'Ponga la dirección del destino donde está realmente el servidor, cuando sepa con certeza que es el suyo.',
  'finding.delivery.reference-not-found':
    '{destination} no conoce a nadie ni nada con un identificador al que remite el caso ({status}).',
  'remedy.delivery.reference-not-found':
    'Compruebe los identificadores del paciente, la petición, el episodio y el equipo. Pida que se dé de alta allí primero lo que falta, o haga que el caso lleve al paciente con `references.patient: include` en los ajustes del destino.',
  'finding.delivery.target-missing':
    '{destination} no tiene ningún recurso {type} con el identificador o la dirección a que remite el caso. No se envió nada.',
  'remedy.delivery.target-missing':
    'Compruebe el identificador. Después hay dos caminos: pedir que se dé de alta allí el recurso {type}, o hacer que el caso lo lleve, con `references.{setting}: include` en los ajustes del destino.',
  'finding.delivery.target-several':
    '{destination} tiene {count} recursos {type} con un mismo identificador: {addresses}. No se envió nada.',
  'remedy.delivery.target-several':
    'Pida que se fusionen allí los duplicados; Casetally no elige entre ellos.',
  'finding.delivery.target-merged': '{destination} ha fusionado {address} en {other}. No se envió nada.',
  'remedy.delivery.target-merged': 'Averigüe de qué recurso {type} se trata y use su identificador.',
  'finding.delivery.target-inactive':
    'En {destination}, {address} figura como fuera de uso. No se envió nada.',
  'remedy.delivery.target-inactive': 'Averigüe de qué recurso {type} se trata y use su identificador.',
  'finding.delivery.match-differs':
    '{address} en {destination} difiere en {field}: {sent} en el registro, {held} allí.',
  'remedy.delivery.match-differs':
    'Mire si el número es el correcto. Corrija el registro o lo que hay allí, y envíe de nuevo.',
  'finding.delivery.match-near':
    '{address} en {destination} casi coincide en {field}: {sent} en el registro, {held} allí.',
  'remedy.delivery.match-near':
    'Si es correcto: casetally outbox retry ITEM --accept {field} --by NAME --why TEXT.',
  'finding.delivery.not-compared':
    '{destination} no comunica {what} del recurso {type}: no se comparó con el registro.',
  'remedy.delivery.not-compared': 'Mire en el destino si el caso está en el paciente correcto.',
  'finding.delivery.case-of-another-patient':
    '{destination} tiene este caso en otro paciente ({address}, {patient}).',
  'remedy.delivery.case-of-another-patient':
    'Un caso permanece con su paciente. Para pasarlo a otro: casetally move OLD NEW.',
  'finding.delivery.partial':
    '{destination} aceptó solo una parte del envío, o no lo trató como un todo ({status}).',
  'remedy.delivery.partial': 'Mire lo que tiene, indicado abajo, antes de enviar nada de nuevo.',
  'finding.delivery.echoed':
    '{destination} guardó el envío como documento en lugar de ejecutarlo ({status}).',
  'remedy.delivery.echoed':
    'La dirección no es la base de un servidor FHIR que admita transacciones: corríjala.',
  'finding.delivery.outcome-unknown': 'No se sabe si {destination} aceptó el envío ({status}).',
  'remedy.delivery.outcome-unknown':
    'No introduzca el caso a mano. Envíelo de nuevo más tarde: lo que ya está allí se encuentra por sus identificadores.',
  'finding.delivery.several-matches':
    '{destination} tiene varios recursos con un mismo identificador del caso y no puede elegir ({status}).',
  'remedy.delivery.several-matches':
    'Pida que en el destino se fusionen o se den de baja los duplicados, y envíe de nuevo.',
  'finding.delivery.several-held':
    '{destination} tiene {count} recursos {resource} con el mismo identificador de {system}: {addresses}.',
  'remedy.delivery.several-held':
    'Pida que se fusionen allí o se den de baja los duplicados, y envíe de nuevo.',
  'finding.delivery.gone':
    'Algo de este caso se ha retirado en {destination} ({status}); no se vuelve a crear por sí solo.',
  'remedy.delivery.gone': 'Averigüe allí por qué se retiró antes de enviar de nuevo.',
  'finding.delivery.throttled': '{destination} no admite más por ahora ({status}) y pide esperar {wait}.',
  'remedy.delivery.throttled': 'Envíe de nuevo pasado ese tiempo.',
  'finding.delivery.unreachable': 'No se pudo acceder a {destination}: {cause}. No se envió nada.',
  'remedy.delivery.unreachable': 'Compruebe la dirección y la red, y envíe de nuevo.',
  'finding.delivery.certificate':
    'El certificado de {destination} no es de confianza o es para otro nombre. No se envió nada.',
  'remedy.delivery.certificate':
    'Compruebe la dirección; si la autoridad de certificación es privada, indique su certificado en el destino.',
  'finding.delivery.unauthorised': '{destination} no acepta las credenciales ({status}).',
  'remedy.delivery.unauthorised':
    'Compruebe la autorización del destino en el fichero del centro y los secretos a los que remite.',
  'finding.delivery.token-refused':
    'El servidor de autorización de {destination} no concede ningún token a este remitente. No se envió nada.',
  'remedy.delivery.token-refused':
    'Compruebe el identificador del cliente, la clave o el secreto, scope y el reloj; la clave pública debe estar registrada allí.',
  'finding.delivery.secret-missing':
    'No se encontró el secreto {reference} del destino {destination}: no hay nada en {where}.',
  'remedy.delivery.secret-missing':
    'Defina esa variable de entorno, o haga que este usuario pueda leer ese fichero. Una ruta relativa parte de la carpeta de la configuración del centro.',
  'finding.delivery.header-not-allowed':
    'El destino {destination} fija la cabecera {header}, que el fichero del centro no debe fijar.',
  'remedy.delivery.header-not-allowed': 'Quítela; la autorización va en auth, por referencia al secreto.',
  'finding.delivery.other-version':
    '{destination} dice que habla FHIR {version}; lo que se le envía se escribe en {ours}.',
  'remedy.delivery.other-version':
    'Ponga fhirVersion del destino en lo que habla el servidor, o use su dirección para la otra versión.',
  'finding.delivery.transaction-not-declared': '{destination} no dice que admita transacciones.',
  'remedy.delivery.transaction-not-declared':
    'Ponga mode del destino en batch o single; o, si sabe que las admite de todos modos, undeclaredTransaction en true.',
  'finding.delivery.batch-not-declared': '{destination} no dice que admita lotes de peticiones (batch).',
  'remedy.delivery.batch-not-declared': 'Ponga mode del destino en single si allí fallan.',
  'finding.delivery.not-in-version':
    '{destination} pide FHIR {version}, en el que no se puede escribir {what}. No se envió nada.',
  'remedy.delivery.not-in-version': 'Use una dirección de ese servidor para FHIR R4 (4.0.1).',
  'finding.delivery.relations-left-out':
    '{destination} está configurado para no recibir relatesTo: el documento no nombra al anterior. El informe lo dice con palabras, y el anterior queda sustituido de todos modos.',
  'remedy.delivery.relations-left-out': 'Ponga relatesTo del destino en send si el servidor lo admite.',
  'finding.delivery.linked-by-identifier':
    '{destination} no admite transacciones: las referencias {what} llevan el identificador en lugar de una dirección, pues cerrarían un círculo.',
  'remedy.delivery.linked-by-identifier': 'Ponga mode del destino en transaction si el servidor las admite.',
  'finding.delivery.lost-in-version': '{destination} pide FHIR {version}, que no tiene lugar para {what}.',
  'remedy.delivery.lost-in-version':
    'Si esto importa allí, use una dirección de ese servidor para FHIR R4 (4.0.1).',
  'finding.delivery.type-not-declared': '{destination} no dice que admita {type} {what}.',
  'remedy.delivery.type-not-declared':
    'Pregunte a quienes lo gestionan, o excluya ese tipo de recurso en el fichero del centro donde se permita.',
  'finding.delivery.forbidden': '{destination} conoce al remitente pero no le deja escribir ({status}).',
  'remedy.delivery.forbidden': 'Pida permiso de escritura allí para los tipos de recurso que tiene un caso.',
  'finding.delivery.no-transaction': '{destination} no admite transacciones en esta dirección ({status}).',
  'remedy.delivery.no-transaction': 'Compruebe la dirección base; a menudo termina en /fhir o /r4.',
  'finding.delivery.media-type': '{destination} no admite el tipo de medio del envío ({status}).',
  'remedy.delivery.media-type':
    'Ponga el tipo de medio del destino en application/json o en el que indique su documentación.',
  'finding.delivery.server-says': '{destination} dice de {resource}: {text}',
  'remedy.delivery.server-says':
    'Corríjalo en el registro o en el fichero del centro; lo que un servidor rechaza más allá de la norma es regla suya.',
  'finding.delivery.held-differs':
    '{destination} tiene {element} distinto de lo enviado: se envió {sent}, allí hay {held}.',
  'remedy.delivery.held-differs':
    'Averigüe si el servidor lo cambia o lo descarta, y si eso importa para el caso.',
} as const satisfies Partial<Record<MessageKey, string>>;
