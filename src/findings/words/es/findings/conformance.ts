import type { MessageKey } from '../../../message.js';

/** Conformidad de los recursos. */
export const conformanceFindings = {
  'finding.conformance.json-syntax': 'El texto no es JSON: {problem}',
  'remedy.conformance.json-syntax': 'Corrija el JSON en este lugar; lo que sigue no se leyó.',
  'finding.conformance.json-too-deep': 'El JSON está anidado en más de {limit} niveles',
  'remedy.conformance.json-too-deep':
    'Los recursos son mucho más planos; compruebe qué escribió este fichero.',
  'finding.conformance.json-duplicate-key': 'La propiedad «{name}» está escrita dos veces en un mismo objeto',
  'remedy.conformance.json-duplicate-key': 'Deje una de las dos.',
  'finding.conformance.not-a-resource': 'Se espera un objeto JSON con resourceType; hay {found}',
  'remedy.conformance.not-a-resource': 'Indique un recurso FHIR R4 o un Bundle como JSON.',
  'finding.conformance.unknown-type': 'No existe el tipo de recurso R4 «{type}»',
  'remedy.conformance.unknown-type': 'Corrija resourceType; {hint}.',
  'finding.conformance.unknown-element': '{parent} no tiene ningún elemento «{name}»',
  'remedy.conformance.unknown-element': 'Quítelo o corrija cómo está escrito; {hint}.',
  'finding.conformance.json-type': 'Se espera {expected}; hay {found}',
  'remedy.conformance.json-type': 'Escriba el valor en la forma JSON de su tipo.',
  'finding.conformance.empty': 'Vacío: {what}',
  'remedy.conformance.empty': 'Quite el elemento si no tiene contenido.',
  'finding.conformance.null-padding': '{problem}',
  'remedy.conformance.null-padding':
    'En un primitivo que se repite, null está solo donde la otra lista lleva el elemento.',
  'finding.conformance.min': 'Se exige {element} al menos {min} veces; hay {found}',
  'remedy.conformance.min': 'Añada {element}.',
  'finding.conformance.max': 'Se permite {element} como máximo {max} veces; hay {found}',
  'remedy.conformance.max': 'Quite lo que sobra de {element}.',
  'finding.conformance.choice-type': '{element} no puede ser del tipo {found}; se permite: {allowed}',
  'remedy.conformance.choice-type': 'Use uno de los tipos permitidos.',
  'finding.conformance.choice-twice': '{element} se da en más de un tipo: {found}',
  'remedy.conformance.choice-twice': 'Deje uno de ellos.',
  'finding.conformance.primitive-format': '«{value}» no es válido como {type}: {problem}',
  'remedy.conformance.primitive-format': 'Escriba el valor como pide {type}.',
  'finding.conformance.length': 'El valor tiene {found} caracteres; se permiten como máximo {max}',
  'remedy.conformance.length': 'Acorte el valor.',
  'finding.conformance.range': '{value} está fuera del intervalo permitido: {limit}',
  'remedy.conformance.range': 'Corrija el valor.',
  'finding.conformance.fixed': 'El valor debe ser exactamente {expected}; hay {found}',
  'remedy.conformance.fixed': 'Escriba el valor fijado.',
  'finding.conformance.pattern': 'El valor debe contener {expected}; hay {found}',
  'remedy.conformance.pattern': 'Escriba al menos lo que contiene el patrón.',
  'finding.conformance.slice-closed':
    'Este elemento no pertenece a ninguna de las porciones (slices) de {element}, y la división es cerrada: {slices}',
  'remedy.conformance.slice-closed': 'Haga que el elemento corresponda a una porción o quítelo.',
  'finding.conformance.slice-order':
    'El elemento de la porción {slice} va detrás de uno de la porción {after}; las porciones tienen un orden',
  'remedy.conformance.slice-order': 'Ponga los elementos en el orden de las porciones.',
  'finding.conformance.slice-end':
    'Un elemento fuera de todas las porciones de {element} está delante de uno de la porción {slice}',
  'remedy.conformance.slice-end': 'Ponga al final los elementos que no corresponden a ninguna porción.',
  'finding.conformance.slice-not-checked': 'La división en porciones de {element} no se comprobó: {reason}',
  'remedy.conformance.slice-not-checked':
    'Compruebe a la vista o con otra herramienta las porciones de este elemento.',
  'finding.conformance.profile-not-loaded':
    'El perfil {profile} no está cargado, así que no se comprobó nada frente a él',
  'remedy.conformance.profile-not-loaded': 'Cargue el paquete que lo contiene, o corrija la dirección.',
  'finding.conformance.profile-type': 'El perfil {profile} es para {expected}, no para {found}',
  'remedy.conformance.profile-type': 'Declare un perfil de este tipo.',
  'finding.conformance.profile-none':
    'No cumple ninguno de los perfiles permitidos: {profiles}; primer motivo: {reason}',
  'remedy.conformance.profile-none': 'Haga que cumpla uno de ellos.',
  'finding.conformance.abstract-type': '{type} es abstracto y no se puede usar para una instancia',
  'remedy.conformance.abstract-type': 'Use un tipo concreto.',
  'finding.conformance.extension-unknown':
    'La extensión {url} no está definida en los paquetes cargados; solo se comprobó su estructura básica',
  'remedy.conformance.extension-unknown': 'Cargue el paquete que la define, si lo hay.',
  'finding.conformance.extension-modifier-unknown':
    'La extensión modificadora {url} no está definida en los paquetes cargados',
  'remedy.conformance.extension-modifier-unknown':
    'Un modificador se debe entender: cargue el paquete que lo define.',
  'finding.conformance.extension-modifier': 'La extensión {url} se debe usar como {expected}',
  'remedy.conformance.extension-modifier': 'Pásela a {expected}.',
  'finding.conformance.extension-context':
    'La extensión {url} no se permite en {where}; se permite en: {allowed}',
  'remedy.conformance.extension-context': 'Úsela donde su definición lo permite.',
  'finding.conformance.extension-part': 'La extensión {extension} no tiene ninguna parte «{url}»',
  'remedy.conformance.extension-part': 'Use las partes que nombra su definición.',
  'finding.conformance.extension-url': 'La dirección de extensión «{url}» no es absoluta',
  'remedy.conformance.extension-url':
    'Escriba la dirección completa de la extensión; solo las partes de una extensión compleja tienen nombres cortos.',
  'finding.conformance.binding-required':
    '{found} no está en el conjunto de valores obligatorio (required) {valueSet}',
  'remedy.conformance.binding-required': 'Use un código del conjunto de valores{hint}.',
  'finding.conformance.binding-extensible':
    '{found} no está en el conjunto de valores ampliable (extensible) {valueSet}',
  'remedy.conformance.binding-extensible':
    'Use un código del conjunto de valores si alguno tiene ese significado{hint}.',
  'finding.conformance.binding-preferred':
    '{found} no está en el conjunto de valores preferido (preferred) {valueSet}',
  'remedy.conformance.binding-preferred': 'Se prefiere un código del conjunto de valores{hint}.',
  'finding.conformance.binding-max': '{found} no está en el conjunto de valores máximo {valueSet}',
  'remedy.conformance.binding-max': 'Use un código del conjunto de valores{hint}.',
  'finding.conformance.binding-not-checked': 'No se comprobó si {found} está en {valueSet} ({reason})',
  'remedy.conformance.binding-not-checked': 'Haga que un servidor de terminología lo compruebe, si importa.',
  'finding.conformance.code-unknown': 'El sistema de códigos {system} no tiene ningún código «{code}»',
  'remedy.conformance.code-unknown': 'Corrija el código{hint}.',
  'finding.conformance.code-display':
    'El texto de display «{found}» no es ninguno de los del código {code}; es: {expected}',
  'remedy.conformance.code-display':
    'Use el texto de display del sistema de códigos, o ponga sus propias palabras en text.',
  'finding.conformance.code-system-value-set':
    'Coding.system contiene la dirección de un conjunto de valores: {system}',
  'remedy.conformance.code-system-value-set': 'Escriba la dirección del sistema de códigos.',
  'finding.conformance.code-system-relative': 'Coding.system «{system}» no es una dirección absoluta',
  'remedy.conformance.code-system-relative': 'Escriba la dirección completa del sistema de códigos.',
  'finding.conformance.udi-issuer-relative':
    'El emisor «{issuer}» del identificador del producto no es una dirección absoluta',
  'remedy.conformance.udi-issuer-relative':
    'Escriba la dirección del organismo emisor, por ejemplo http://hl7.org/fhir/NamingSystem/gs1-di.',
  'finding.conformance.code-check-digit': 'El código {code} de {system} está mal escrito: {problem}',
  'remedy.conformance.code-check-digit': 'Busque de nuevo el código; cuentan el número de cifras y su orden.',
  'finding.conformance.unit-invalid': '«{code}» no es una unidad de UCUM: {problem}',
  'remedy.conformance.unit-invalid': 'Escriba la unidad en UCUM, por ejemplo mm, [Ch], mGy, Gy.cm2.',
  'finding.conformance.invariant': '{key}: {human}',
  'remedy.conformance.invariant': 'Haga que se cumpla la regla: {expression}',
  'finding.conformance.invariant-not-checked': 'El invariante {key} no se pudo evaluar: {reason}',
  'remedy.conformance.invariant-not-checked': 'Compruébelo a la vista: {human}',
} as const satisfies Partial<Record<MessageKey, string>>;
