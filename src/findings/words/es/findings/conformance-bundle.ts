import type { MessageKey } from '../../../message.js';

/** Conformidad del conjunto de recursos. */
export const conformanceBundleFindings = {
  'finding.conformance.identifier-system': 'Identifier.system «{system}» no es una dirección absoluta',
  'remedy.conformance.identifier-system':
    'Escriba la dirección completa, o urn:oid:… o urn:uuid:… del espacio de nombres.',
  'finding.conformance.identifier-value':
    'El identificador «{value}» del sistema urn:ietf:rfc:3986 no es un URI completo',
  'remedy.conformance.identifier-value': 'Escriba el valor como URI, por ejemplo urn:uuid:… o urn:oid:….',
  'finding.conformance.canonical-relative': 'La dirección canónica «{value}» no es absoluta ni un fragmento',
  'remedy.conformance.canonical-relative': 'Escriba la dirección canónica completa.',
  'finding.conformance.attachment-hash':
    'El hash del adjunto no concuerda con sus datos (el SHA-1 de los datos es {expected})',
  'remedy.conformance.attachment-hash':
    'Calcule el hash sobre los datos antes de base64, y escríbalo en base64.',
  'finding.conformance.attachment-size':
    'El tamaño del adjunto es {found}, pero sus datos tienen {expected} bytes',
  'remedy.conformance.attachment-size': 'Escriba el número de bytes antes de base64.',
  'finding.conformance.reference-format': '«{reference}» no es una referencia: {problem}',
  'remedy.conformance.reference-format':
    'Escriba Type/id, una dirección absoluta, urn:uuid:…, urn:oid:… o #id.',
  'finding.conformance.reference-type': 'La referencia apunta a {found}; se permite: {allowed}',
  'remedy.conformance.reference-type': 'Remita a un recurso de un tipo permitido.',
  'finding.conformance.reference-type-mismatch':
    'Reference.type dice {said}, pero la referencia apunta a {found}',
  'remedy.conformance.reference-type-mismatch': 'Corrija type o reference.',
  'finding.conformance.reference-profile':
    'El recurso al que se remite no cumple ninguno de: {profiles}; primer motivo: {reason}',
  'remedy.conformance.reference-profile':
    'Haga que el recurso al que se remite lo cumpla, o remita a otro recurso.',
  'finding.conformance.reference-contained': 'Ningún recurso contenido tiene el id «{id}»',
  'remedy.conformance.reference-contained': 'Incluya el recurso o corrija la referencia.',
  'finding.conformance.reference-aggregation': 'La referencia es {found}; se permite: {allowed}',
  'remedy.conformance.reference-aggregation': 'Remita de una manera permitida.',
  'finding.conformance.reference-urn': 'Ninguna entrada del Bundle tiene el fullUrl {reference}',
  'remedy.conformance.reference-urn': 'Añada la entrada o corrija la referencia.',
  'finding.conformance.contained-id': '{problem}',
  'remedy.conformance.contained-id': 'Dé a cada recurso contenido un id propio.',
  'finding.conformance.bundle-full-url': 'El fullUrl «{fullUrl}» no se puede usar: {problem}',
  'remedy.conformance.bundle-full-url': 'Escriba una dirección absoluta o urn:uuid:… de la entrada.',
  'finding.conformance.bundle-full-url-missing': 'La entrada no tiene fullUrl',
  'remedy.conformance.bundle-full-url-missing':
    'Solo batch, transaction y las respuestas pueden omitirlo: indique la identidad del recurso.',
  'finding.conformance.bundle-id-mismatch': 'El fullUrl termina en {tail}, pero el recurso es {found}',
  'remedy.conformance.bundle-id-mismatch':
    'Haga que las dos últimas partes de fullUrl sean el tipo y el id del recurso.',
  'finding.conformance.bundle-unreachable':
    'A la entrada {entry} no se llega por referencias desde Composition',
  'remedy.conformance.bundle-unreachable': 'Remita a ella desde Composition o quítela.',
  'finding.conformance.bundle-missing-entry':
    'El documento no contiene {reference}, a la que remite su {from}',
  'remedy.conformance.bundle-missing-entry': 'Incluya el recurso en el documento.',
  'finding.conformance.bundle-request': 'La petición {method} {url} no se puede usar: {problem}',
  'remedy.conformance.bundle-request': 'Escriba la petición como pide la interfaz RESTful.',
  'finding.conformance.bundle-identity-twice':
    'La transacción escribe {identity} más de una vez (también en la entrada {other})',
  'remedy.conformance.bundle-identity-twice': 'Escriba cada recurso una sola vez en una transacción.',
  'finding.conformance.bundle-create-twice':
    'La transacción crea {criteria} más de una vez si no está (también en la entrada {other}): un servidor crea dos',
  'remedy.conformance.bundle-create-twice': 'Cree el recurso una sola vez, y remita a esa entrada.',
  'finding.conformance.bundle-batch-reference':
    'La entrada remite a la entrada {other} del mismo batch, cuyo id no se conoce hasta que el batch termina',
  'remedy.conformance.bundle-batch-reference': 'Use una transacción, o remita a recursos que existan.',
  'finding.conformance.conditional-reference':
    'La referencia condicional {reference} solo se permite en una transacción',
  'remedy.conformance.conditional-reference': 'Remita por dirección, o envíe una transacción.',
  'finding.conformance.narrative-xml': 'El texto narrativo no es XHTML bien formado: {problem}',
  'remedy.conformance.narrative-xml': 'Corrija las marcas.',
  'finding.conformance.narrative-root':
    'El texto narrativo debe ser un solo div en el espacio de nombres de XHTML; hay {found}',
  'remedy.conformance.narrative-root': 'Escriba <div xmlns="http://www.w3.org/1999/xhtml">…</div>.',
  'finding.conformance.narrative-element':
    'El texto narrativo no puede contener el elemento {element} (txt-1)',
  'remedy.conformance.narrative-element':
    'Use solo elementos de formato básico de los capítulos 7 a 11 y 15 de HTML 4.0.',
  'finding.conformance.narrative-attribute':
    'El texto narrativo no puede contener el atributo {attribute} en {element} (txt-1)',
  'remedy.conformance.narrative-attribute': 'Quite el atributo.',
  'finding.conformance.narrative-empty': 'El texto narrativo no tiene texto ni imagen (txt-2)',
  'remedy.conformance.narrative-empty': 'Escriba algún texto, u omita el texto narrativo.',
  'finding.conformance.narrative-link': 'Dirección del enlace o de la imagen «{target}»: {problem}',
  'remedy.conformance.narrative-link':
    'Apunte a un id de este texto narrativo, a un recurso contenido o a una dirección absoluta segura.',
  'finding.conformance.narrative-id': 'El id «{id}» se usa dos veces en el texto narrativo',
  'remedy.conformance.narrative-id': 'Use cada id una sola vez.',
  'finding.conformance.waiver-expired': 'La dispensa de {rule} en {where} caducó el {expires}',
  'remedy.conformance.waiver-expired': 'Revísela: corrija lo que dispensa, o renuévela con un motivo.',
  'finding.conformance.waiver-unused': 'La dispensa de {rule} en {where} no dispensó nada',
  'remedy.conformance.waiver-unused': 'Quítela si ya no hace falta.',
} as const satisfies Partial<Record<MessageKey, string>>;
