import type { MessageKey } from '../../../message.js';

/** Etiquetas e identificadores de productos. */
export const labelFindings = {
  'finding.label.not-a-label':
    'Esto no es la etiqueta de un producto: empieza por {found}; una etiqueta empieza por ( o cifras (GS1), + (HIBC) o = (ISBT 128).',
  'remedy.label.not-a-label':
    'Lea de nuevo la etiqueta con el lector, o escríbala tal como está impresa, con los paréntesis.',
  'finding.label.too-long': 'El texto tiene {found} caracteres; una etiqueta tiene como máximo {limit}.',
  'remedy.label.too-long': 'Indique una etiqueta cada vez.',
  'finding.label.symbology':
    'El prefijo de simbología {found} no es de los que acompañan a los datos GS1 (]C1, ]d2, ]Q3, ]e0, ]J1).',
  'remedy.label.symbology': 'Compruebe que se leyó el símbolo entero, y el correcto del envase.',
  'finding.label.symbology-unknown':
    'Los caracteres 1 a 3, {found}, no son un prefijo de simbología que envíen los lectores.',
  'remedy.label.symbology-unknown': 'Lea de nuevo la etiqueta.',
  'finding.label.unknown-identifier':
    'En el carácter {at}, {found} no es un identificador de aplicación GS1.',
  'remedy.label.unknown-identifier':
    'Compare con la etiqueta las dos a cuatro cifras; si se leyeron con el lector, léalas de nuevo.',
  'finding.label.bracket':
    'En el carácter {at} ({what}) parece dañado un paréntesis de un identificador de aplicación: {found}.',
  'remedy.label.bracket': 'Escriba cada identificador de aplicación entre paréntesis, por ejemplo (10).',
  'finding.label.brackets-in-scan':
    'Los propios datos leídos contienen paréntesis; solo debería llevarlos el texto impreso.',
  'remedy.label.brackets-in-scan':
    'La etiqueta se leyó como está impresa; dígaselo a su fabricante o a quien configuró el lector.',
  'finding.label.length': 'En el carácter {at}, {what}, número de caracteres: {found}; se espera {expected}.',
  'remedy.label.length': 'Compárelo con la etiqueta; si se leyó con el lector, léalo de nuevo.',
  'finding.label.character': 'En el carácter {at}, {what}: hay {found}; se espera {expected}.',
  'remedy.label.character': 'Compare ese carácter con la etiqueta; si se leyó con el lector, léala de nuevo.',
  'finding.label.spaces': 'En el carácter {at}, {what}: se omitieron los espacios que contenía.',
  'remedy.label.spaces': 'No hace falta nada si las cifras son correctas.',
  'finding.label.check-digit':
    'En el carácter {at}, {what}: el dígito de control es {found}; las demás cifras dan {expected}.',
  'remedy.label.check-digit':
    'Compare todas las cifras con la etiqueta; una está mal, o la etiqueta se imprimió mal.',
  'finding.label.check-character':
    'El carácter de control en el carácter {at} es {found}; los caracteres anteriores dan {expected}.',
  'remedy.label.check-character':
    'Compare todos los caracteres con la etiqueta; uno está mal o falta. Un carácter de control que es un espacio se escribe como _.',
  'finding.label.check-character-space':
    'El carácter de control en el carácter {at} es {found}; los caracteres anteriores dan {expected}, y {found} si entre ellos se perdió un espacio.',
  'remedy.label.check-character-space':
    'Compare todos los caracteres con la etiqueta; donde una etiqueta larga se parte en líneas se pierde un espacio.',
  'finding.label.check-character-missing':
    'La etiqueta termina en el carácter {at} sin su carácter de control ({expected}); nada confirma lo demás.',
  'remedy.label.check-character-missing':
    'Compare todos los caracteres con la etiqueta, o léala con el lector.',
  'finding.label.trailing-space': 'La etiqueta se leyó sin el espacio del final (carácter {at}).',
  'remedy.label.trailing-space': 'No hace falta nada si la etiqueta no tiene ahí un espacio.',
  'finding.label.asterisk':
    'Hay un asterisco en un solo extremo, en el carácter {at}; van por pares a ambos lados de la etiqueta impresa.',
  'remedy.label.asterisk': 'Compare los dos extremos con la etiqueta.',
  'finding.label.link-character':
    'El carácter de enlace en el carácter {at} es {found}; el símbolo primario pide {expected}.',
  'remedy.label.link-character':
    'Los dos símbolos son de productos distintos, o uno se leyó mal: lea de nuevo ambos.',
  'finding.label.structure': 'En el carácter {at} hay {found} donde se espera {expected}.',
  'remedy.label.structure': 'Compare ese lugar con la etiqueta; si se leyó con el lector, léala de nuevo.',
  'finding.label.unusual-character':
    'En el carácter {at}, {what}: hay {found}; la norma solo admite ahí de A a Z y de 0 a 9.',
  'remedy.label.unusual-character': 'Compare ese carácter con la etiqueta.',
  'finding.label.date-flag-missing':
    'Tras la cantidad, en el carácter {at}, no se indica el formato de la fecha; lo demás se leyó así: {what}.',
  'remedy.label.date-flag-missing': 'Compárelo con la etiqueta.',
  'finding.label.provider-code':
    'La / en el carácter {at} indica que es un código de un hospital (HIBC para proveedores de asistencia), no del fabricante de un producto.',
  'remedy.label.provider-code': 'Lea la etiqueta del fabricante.',
  'finding.label.date': 'En el carácter {at}, {what}: {found}; ese día no existe.',
  'remedy.label.date': 'Compárelo con la etiqueta. Las demás partes de la etiqueta se leyeron.',
  'finding.label.dates-order':
    'La etiqueta da como fecha de fabricación {made} (carácter {madeAt}) y como fecha de caducidad {expires} (carácter {expiresAt}), que es anterior.',
  'remedy.label.dates-order': 'Compare ambas fechas con la etiqueta.',
  'finding.label.separator-lost':
    'En el carácter {at}, {what}: se perdió el separador que sigue; solo hay una lectura posible: {reading}.',
  'remedy.label.separator-lost':
    'Compare la lectura con la etiqueta, y configure el lector para que transmita el separador de grupo.',
  'finding.label.ambiguous':
    'En el carácter {at}, {what}: sin separadores puede terminar en {count} lugares; no se eligió ninguno: {readings}.',
  'remedy.label.ambiguous':
    'Escriba la etiqueta con sus paréntesis, o configure el lector para que transmita el separador de grupo.',
  'finding.label.repeated': 'Dos veces en la etiqueta, {what}: {first} y, en el carácter {at}, {second}.',
  'remedy.label.repeated': 'Compare ambos con la etiqueta; lea los símbolos de uno en uno.',
  'finding.label.needs': 'En el carácter {at}, {what}: solo puede estar junto a {expected}.',
  'remedy.label.needs':
    'Lea también el símbolo con el identificador del producto; compare los identificadores de aplicación con la etiqueta.',
  'finding.label.excludes': 'En el carácter {at}, {what}: no puede estar junto a {found}.',
  'remedy.label.excludes': 'Compare los identificadores de aplicación con la etiqueta.',
  'finding.label.no-device-identifier': 'La etiqueta no contiene el identificador del producto.',
  'remedy.label.no-device-identifier':
    'Lea el símbolo que lo contiene (GS1: el que lleva (01); HIBC: el que empieza por + y una letra).',
  'finding.label.bare-number':
    'Las {found} cifras se leyeron como un número de artículo GS1 solo, sin lote, número de serie ni caducidad.',
  'remedy.label.bare-number': 'Lea también el símbolo con los datos de producción, si el envase lo tiene.',
  'finding.label.suspect-keyboard':
    'Parece que el texto pasó por {cause}; puede que se quisiera decir {proposal} ({check}).',
  'remedy.label.suspect-keyboard':
    'Compare la propuesta con la etiqueta e introdúzcala si es correcta; ponga en el lector el teclado del ordenador.',
  'finding.label.serial-zero': 'El código de división en el carácter {at} es 000000, que la norma prohíbe.',
  'remedy.label.serial-zero': 'Compárelo con la etiqueta.',
  'finding.label.header-count': 'La cabecera anuncia {expected} estructuras; siguen {found}.',
  'remedy.label.header-count': 'Lea de nuevo la etiqueta.',
  'finding.label.conflict': '{device}, {what}: escrito a mano es {typed} y en la etiqueta {label}.',
  'remedy.label.conflict':
    'Corrija lo escrito a mano, o el texto de la etiqueta; hasta entonces vale la etiqueta.',
  'finding.label.expired': '{device} caducó el {expires}, antes del día del caso ({date}).',
  'remedy.label.expired':
    'Corrija la fecha o el producto; si se usó, diga por qué y notifíquelo como pida su centro.',
  'finding.label.expires-soon': '{device} caduca el {expires}, a menos de {days} días del caso.',
  'remedy.label.expires-soon': 'Dígaselo a quien lleva el almacén.',
  'finding.label.serial-twice':
    '{device} y {other} llevan el mismo identificador {di} y el mismo número de serie {serial}.',
  'remedy.label.serial-twice': 'Lea cada producto una sola vez; borre la entrada que se hizo dos veces.',
  'finding.label.serial-other-case':
    '{device} lleva el identificador {di} y el número de serie {serial}, que ya constan en el caso {case}.',
  'remedy.label.serial-other-case':
    'Si es el mismo producto, diga que viene de ese caso; si no, léalo de nuevo.',
  'finding.label.lot-missing': '{device} es un implante y no tiene número de lote{alternative}.',
  'remedy.label.lot-missing': 'Lea la etiqueta o escriba el lote.',
  'finding.label.identifier-missing':
    '{device} permanece en el paciente y no tiene identificador del producto.',
  'remedy.label.identifier-missing': 'Lea la etiqueta; si se perdió, dígalo con un motivo.',
  'finding.catalogue.unreadable': 'La línea {line} del catálogo de productos no se puede leer: {problem}.',
  'remedy.catalogue.unreadable': 'Corrija esa línea; las líneas siguientes que se pudieron leer se usaron.',
  'finding.catalogue.column-missing': 'El catálogo de productos no tiene la columna {column}.',
  'remedy.catalogue.column-missing':
    'Nombre las columnas en la primera línea: di, description, kind, maker, reference, sizes, implant, mri, dwell.',
  'finding.catalogue.value':
    'Línea {line} del catálogo de productos: {column} es {found}; se espera {expected}.',
  'remedy.catalogue.value': 'Corrija esa línea; sus demás columnas se usaron.',
  'finding.catalogue.identifier':
    'La línea {line} del catálogo de productos tiene {found} como identificador del producto; se espera {expected}.',
  'remedy.catalogue.identifier': 'Corrija esa línea; se omitió.',
  'finding.catalogue.repeated':
    'La línea {line} del catálogo de productos repite el identificador {di} de la línea {first} con otros datos: es el mismo producto.',
  'remedy.catalogue.repeated': 'Deje una de las dos líneas; se usó la primera.',
  'finding.catalogue.conflict':
    '{device}, {what}: consta {recorded} ({source}) y en el catálogo de productos {catalogue}.',
  'remedy.catalogue.conflict': 'Corrija la entrada o el catálogo; hasta entonces vale lo que consta.',
} as const satisfies Partial<Record<MessageKey, string>>;
