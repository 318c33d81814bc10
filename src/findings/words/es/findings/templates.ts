import type { MessageKey } from '../../../message.js';

/** Plantillas. */
export const templateFindings = {
  'finding.template.none': 'La carpeta {folder} no tiene ninguna disposición (.yaml) ni plantilla (.hbs).',
  'remedy.template.none':
    'Indique la carpeta cuyos ficheros se llaman ward.yaml, o como las plantillas incluidas, por ejemplo style.hbs.',
  'finding.template.broken': '{why}',
  'remedy.template.broken':
    'Corrija el fichero; las claves de las secciones, los nombres y las funciones auxiliares figuran en templates/README.md.',
  'finding.template.drops':
    'El informe para {audience} en {format} ({language}, ejemplo {example}) ya no muestra: {fact}.',
  'remedy.template.drops': 'Imprímalo de nuevo, precedido de su rótulo, donde todo lector lo vea.',
  'finding.template.unsafe':
    'El informe para {audience} en {format} no se puede mostrar con seguridad: {why}.',
  'remedy.template.unsafe':
    'Imprima con llaves dobles, en el texto y no en atributos ni en style; quite lo que se indica aquí.',
  'finding.template.unused':
    'La plantilla {name} no sustituye a ninguna de las incluidas, y ninguna la llama.',
  'remedy.template.unused': 'Busque un error en su nombre, o llámela desde una plantilla propia.',
} as const satisfies Partial<Record<MessageKey, string>>;
