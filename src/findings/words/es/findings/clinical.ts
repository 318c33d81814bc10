import type { MessageKey } from '../../../message.js';

/** Hallazgos clínicos. */
export const clinicalFindings = {
  'remedy.clinical.dose-unit-slip': 'Lea de nuevo en la consola las dos cifras y sus unidades.',
  'finding.clinical.dose-field-narrow':
    'El producto kerma-área {product} y el kerma en aire {kerma} dan un campo medio de {area} cm², inferior a {limit} cm²: el haz era estrecho, o una de las cifras tiene un error de un factor diez.',
  'remedy.clinical.dose-field-narrow':
    'Si el haz no era estrecho, lea de nuevo en la consola las dos cifras y sus unidades.',
  'remedy.clinical.dose-rate': 'Lea de nuevo en la consola el tiempo, la dosis y sus unidades.',
  'remedy.clinical.dose-scan-length': 'Lea de nuevo en el equipo de TC las dos cifras y sus unidades.',
  'finding.clinical.dose-notify': '{what} {value} alcanzó el nivel de notificación de {limit}{steps}.',
  'remedy.clinical.dose-notify': 'Dígaselo a quien opera y anótelo, según la norma local.',
  'remedy.clinical.dose-substantial':
    'Prevea una revisión de la piel y diga al paciente qué debe vigilar, según la norma local, y acepte este aviso indicándolo.',
  'finding.clinical.dose-local':
    'El producto kerma-área {value} supera el nivel de referencia local de {limit} para {kind}.',
  'remedy.clinical.dose-local': 'Anote por qué, si se sabe.',
  'remedy.clinical.skin-review-missing':
    'Añada a aftercare una tarea para la piel con su fecha, o acepte este aviso con el motivo.',
  'remedy.clinical.pregnant':
    'Anote la justificación y la estimación de la dosis en el útero, según la norma local, y acepte este aviso indicándolas.',
  'remedy.clinical.pregnancy-not-asked': 'Añada patient.pregnant: yes, no, not applicable o unknown.',
  'remedy.clinical.egfr-contrast':
    'Prevea una creatinina posterior, según la norma local, y acepte este aviso indicándola.',
  'remedy.clinical.contrast-volume': 'Compruebe el volumen; si es correcto, acepte este aviso con el motivo.',
  'remedy.clinical.allergy-given':
    'Compruebe ambas cosas. Si se administró a sabiendas, acepte este aviso con el motivo y lo que se hizo para evitar daños.',
  'remedy.clinical.lab-missing': 'Anótelo, o acepte este aviso con el motivo.',
  'remedy.clinical.lab-old': 'Anote un valor posterior si lo hay, o acepte este aviso con el motivo.',
  'remedy.clinical.lab-threshold': 'Anote qué se hizo al respecto, o acepte este aviso con el motivo.',
  'remedy.clinical.hold-short': 'Compruebe la hora; si es correcta, acepte este aviso con el motivo.',
  'remedy.clinical.hold-unknown': 'Añada lastDose.',
  'remedy.clinical.prophylaxis-late':
    'Compruebe las horas; si son correctas, acepte este aviso con el motivo.',
  'remedy.clinical.prophylaxis-early':
    'Compruebe las horas; añada la otra dosis si se dio, o acepte este aviso con el motivo.',
  'remedy.clinical.local-anaesthetic':
    'Compruebe la dosis, la concentración y el peso; vigile al paciente según la norma local, y acepte este aviso con lo que se hizo.',
  'remedy.clinical.fasting': 'Compruebe la hora; si es correcta, acepte este aviso con el motivo.',
  'remedy.clinical.grade-differs': 'Compruebe el grado, o el tratamiento, la estancia y el daño que constan.',
  'remedy.clinical.grade-missing': 'Añada grade con scale y grade.',
  'remedy.clinical.success-differs': 'Compruebe lo que consta de este objetivo.',
  'finding.clinical.narrowing': 'La estrechez de {value} en «{target}» está fuera de 0 a 100 %.',
  'remedy.clinical.narrowing': 'Escriba la estrechez como porcentaje del diámetro sano.',
  'finding.clinical.left-without-aftercare':
    '«{device}» permanece en el paciente y nada dice qué será de él.',
  'remedy.clinical.left-without-aftercare': 'Añada a aftercare una tarea para él, o until / latest en left.',
  'finding.clinical.due-order': '«{what}»: {earlier} es posterior a {later}.',
  'remedy.clinical.due-order': 'Ponga en orden earliest, due y latest.',
  'finding.clinical.due-before-case': '«{what}» está previsto para {date}, antes de que terminara el caso.',
  'remedy.clinical.due-before-case': 'Corrija la fecha.',
  'remedy.clinical.due-uncountable':
    'Escriba horas, o días, semanas, meses o años enteros, o una fecha; las horas se cuentan desde el final del caso (case.ended).',
  'finding.clinical.dose-negative': 'Una dosis o un tiempo de {value} está por debajo de cero.',
  'remedy.clinical.dose-negative': 'Lea de nuevo la cifra en la consola.',
  'finding.clinical.pregnancy-unknown': 'Se usó radiación y no se sabía si la paciente está embarazada.',
  'remedy.clinical.pregnancy-unknown': 'Anote la justificación, según la norma local.',
  'finding.clinical.egfr-not-assessed':
    'Se administró contraste intravascular y no se valoró la función renal: {why}.',
  'remedy.clinical.egfr-not-assessed':
    'Añada la creatinina anterior al caso con su hora, la fecha de nacimiento y el sexo, donde se conozcan.',
  'remedy.clinical.kidney-injury':
    'Compruebe los valores y sus horas; dígaselo a quienes atienden al paciente, y acepte este aviso indicando a quién se le dijo.',
  'finding.clinical.lab-undecided':
    '{lab} {value} no se comparó con el umbral de {limit} para un procedimiento de riesgo {risk}: es solo un límite, o no tiene una unidad utilizable.',
  'remedy.clinical.lab-undecided': 'Escriba el valor medido, si lo hay.',
  'remedy.clinical.prophylaxis-redose': 'Compruebe las horas; añada la otra dosis si se dio.',
  'finding.clinical.reversal-given': '«{drug}» {dose} se dio a las {time} para revertir otro fármaco.',
  'remedy.clinical.reversal-given': 'Vigile que no reaparezca el efecto de este, según la norma local.',
  'finding.clinical.fasting-not-recorded':
    '{what} antes de la sedación: no se valoró, porque no consta la hora de la última toma.',
  'remedy.clinical.fasting-not-recorded': 'Añádala en before.fasting, si se conoce.',
  'remedy.clinical.narrowing-differs': 'Compruebe la estrechez, la luz y el diámetro sano.',
  'remedy.clinical.session-without-earlier':
    'Añada before.earlierAttempts y, en devices, lo que la sesión anterior dejó colocado (carried).',
  'remedy.clinical.criterion-value': 'Añada o quite el valor de esta condición.',
  'remedy.clinical.capped-without-criteria':
    'Añada criteria a su tarea de aftercare: medida, valor, durante cuánto tiempo y qué sigue.',
  'remedy.clinical.later-than-policy':
    'Compruebe la fecha; si es la que se quiere, acepte este aviso con el motivo.',
} as const satisfies Partial<Record<MessageKey, string>>;
