import type { MessageKey } from '../../../message.js';

/** Respuestas al formulario del registro. */
export const formFindings = {
  'finding.form.too-big': 'La respuesta tiene {size} bytes; se leen como máximo {limit}.',
  'remedy.form.too-big': 'Envíe solo las respuestas, sin adjuntos.',
  'finding.form.too-many': 'La respuesta tiene {count} objetos y listas; se leen como máximo {limit}.',
  'remedy.form.too-many': 'Compruebe si se repitieron entradas por error.',
  'finding.form.too-deep': 'La respuesta está anidada en más de {limit} niveles.',
  'remedy.form.too-deep': 'Envíe las entradas anidadas como en el formulario.',
  'finding.form.not-json': 'La respuesta no puede leerse como JSON: {problem}.',
  'remedy.form.not-json': 'Envíe la QuestionnaireResponse como JSON de FHIR.',
  'finding.form.twice-in-json': 'Un objeto de la respuesta tiene el miembro {name} dos veces.',
  'remedy.form.twice-in-json': 'Corrija el programa que escribe la respuesta: uno de los dos se perdería.',
  'finding.form.not-a-response': 'Esto no es una QuestionnaireResponse: resourceType es {found}.',
  'remedy.form.not-a-response': 'Envíe una sola QuestionnaireResponse, no un Bundle ni otro recurso.',
  'finding.form.not-understood':
    '{element} puede cambiar el sentido de las respuestas, y Casetally no lo entiende: {value}.',
  'remedy.form.not-understood': 'Envíe la respuesta sin {element}.',
  'finding.form.entered-in-error':
    'La respuesta se introdujo por error: no se crea ningún registro con ella.',
  'remedy.form.entered-in-error': 'Rellene el formulario de nuevo, con el paciente y el caso correctos.',
  'finding.form.other-questionnaire': 'La respuesta es de otro formulario: {found}.',
  'remedy.form.other-questionnaire': 'Rellene {expected}; casetally questionnaire lo imprime.',
  'finding.form.no-questionnaire': 'La respuesta no dice a qué formulario responde.',
  'remedy.form.no-questionnaire': 'Ponga {expected} en questionnaire.',
  'finding.form.other-version':
    'La respuesta se hizo con la versión {found} del formulario; esta es la versión {expected}.',
  'remedy.form.other-version': 'Obtenga de nuevo el formulario cuando se actualice Casetally.',
  'finding.form.not-completed': 'El formulario no se terminó: status es {status}.',
  'remedy.form.not-completed':
    'Termine el formulario y envíelo con status completed; hasta entonces, sus valores son propuestas.',
  'finding.form.no-date': 'La respuesta no dice cuándo se hizo: authored es {found}.',
  'remedy.form.no-date': 'Ponga en authored una fecha y hora con desfase, como 2024-03-14T10:05:00+00:00.',
  'finding.form.unknown-item': 'El formulario no tiene la entrada {linkId}; no está en el registro: {value}.',
  'remedy.form.unknown-item': 'Use un linkId del formulario, o quite la entrada.',
  'finding.form.misplaced':
    'La entrada {linkId} no está donde la tiene el formulario; no está en el registro: {value}.',
  'remedy.form.misplaced': 'Póngala dentro de {group}, como en el formulario.',
  'finding.form.twice':
    '{linkId} tiene más de una respuesta y solo puede tener una; no está en el registro: {value}.',
  'remedy.form.twice': 'Conserve la respuesta correcta.',
  'finding.form.wrong-type':
    '{linkId} tiene una respuesta con {found}; se espera {expected}. No está en el registro: {value}.',
  'remedy.form.wrong-type': 'Envíe la respuesta como {expected}.',
  'finding.form.not-a-choice': '{linkId} no tiene la opción {value}; no está en el registro.',
  'remedy.form.not-a-choice': 'Elija uno de estos códigos, sin system: {allowed}.',
  'finding.form.part-left-out': 'Del código en {linkId}, {parts} no está en el registro: {value}.',
  'remedy.form.part-left-out':
    'No hay que hacer nada, salvo que el código dependa de ello; entonces escríbalo en una nota.',
  'finding.form.no-key':
    'Una entrada no tiene respuesta a {linkId}, de modo que nada puede remitir a ella; no está en el registro: {value}.',
  'remedy.form.no-key': 'Responda a {linkId} con un nombre corto, como drain o wire1.',
  'finding.form.bad-key':
    '{linkId} no puede ser {key}: ya está en uso o está reservado. No está en el registro: {value}.',
  'remedy.form.bad-key': 'Dé a cada entrada un nombre corto propio.',
  'finding.form.contradiction':
    '{linkId} y {other} tienen respuesta, y solo una puede valer; no está en el registro: {value}.',
  'remedy.form.contradiction': 'Quite la respuesta equivocada.',
  'finding.form.other-subject':
    'La respuesta trata de {said} ({element}), y {linkId} tiene la respuesta {answered}.',
  'remedy.form.other-subject':
    'Averigüe cuál es correcto antes de enviar nada: el formulario puede estar bajo otro paciente o caso.',
  'finding.form.more': 'Hay {count} hallazgos más sobre la respuesta.',
  'remedy.form.more': 'Corrija primero los anteriores.',
  'finding.form.not-answered':
    '{value} es más de lo que puede ser un número entero en FHIR ({limit}), por lo que no está en la respuesta.',
  'remedy.form.not-answered': 'Corrija el número.',
} as const satisfies Partial<Record<MessageKey, string>>;
