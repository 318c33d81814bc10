import type { MessageKey } from '../../../message.js';

/** Informes de dosis. */
export const doseReportFindings = {
  'finding.dose-report.too-big':
    'El fichero tiene {found} bytes; se leen informes de dosis de hasta {limit} bytes.',
  'remedy.dose-report.too-big': 'Compruebe que es el informe de dosis y no una imagen del estudio.',
  'finding.dose-report.not-dicom': 'No es un fichero DICOM.',
  'remedy.dose-report.not-dicom':
    'Exporte el informe de dosis del archivo de imágenes como fichero DICOM (.dcm).',
  'finding.dose-report.damaged':
    'El fichero está dañado o incompleto (en el byte {at}). No se usó nada de él.',
  'remedy.dose-report.damaged': 'Exporte de nuevo el informe de dosis.',
  'finding.dose-report.syntax':
    'El fichero está escrito en la sintaxis de transferencia {found}, que no se lee.',
  'remedy.dose-report.syntax': 'Expórtelo como Explicit o Implicit VR Little Endian.',
  'finding.dose-report.too-much':
    'El fichero tiene más de {limit} elementos, muchos más que un informe de dosis. No se usó nada de él.',
  'remedy.dose-report.too-much': 'Compruebe que es el informe de dosis de un solo caso.',
  'finding.dose-report.too-deep':
    'El fichero anida secuencias a más de {limit} niveles. No se usó nada de él.',
  'remedy.dose-report.too-deep': 'Exporte de nuevo el informe de dosis.',
  'finding.dose-report.other-object': 'Este objeto DICOM no es un informe estructurado (clase SOP {found}).',
  'remedy.dose-report.other-object': 'Elija el informe de dosis del estudio; su modalidad es SR.',
  'finding.dose-report.other-report':
    'Este informe estructurado no es un informe de dosis; su título es {found}.',
  'remedy.dose-report.other-report': 'Elija el informe titulado X-Ray Radiation Dose Report.',
  'finding.dose-report.said-twice': 'El informe da {what} más de una vez, con valores distintos. Se omitió.',
  'remedy.dose-report.said-twice': 'Lea el valor en la consola.',
  'finding.dose-report.value': '{what} tiene un valor que no es una cantidad posible: {found}. Se omitió.',
  'remedy.dose-report.value': 'Lea el valor en la consola.',
  'finding.dose-report.unit': '{what} se da en una unidad que no le corresponde: {unit}. Se omitió.',
  'remedy.dose-report.unit': 'Lea el valor y la unidad en la consola.',
  'finding.dose-report.plane-twice':
    'El informe tiene varios juegos de totales para el plano {plane}. No se usó ninguno.',
  'remedy.dose-report.plane-twice': 'Lea los totales en la consola.',
  'finding.dose-report.planes-mixed':
    'El informe tiene totales para un plano único y para el plano A o B. No se usó ninguno.',
  'remedy.dose-report.planes-mixed': 'Lea los totales en la consola.',
  'finding.dose-report.plane-unknown': 'Se omitieron los totales de un plano desconocido: {found}.',
  'remedy.dose-report.plane-unknown': 'Lea los totales en la consola.',
  'finding.dose-report.name-unread':
    'El nombre del paciente está en un juego de caracteres que no se lee. No se comparó.',
  'remedy.dose-report.name-unread': 'Compare usted el nombre.',
  'finding.dose-report.no-instance':
    'El informe no tiene SOP Instance UID: no se puede reconocer si se da dos veces.',
  'remedy.dose-report.no-instance': 'Dé cada informe una sola vez.',
  'finding.dose-report.partial': 'El informe dice de sí mismo que no está completo.',
  'remedy.dose-report.partial': 'Use el informe enviado al final del caso.',
  'finding.dose-report.private': 'No se leyeron {n} partes privadas del informe ({names}).',
  'remedy.dose-report.private': 'No hace falta nada.',
  'finding.dose-report.no-total':
    '{what}: el informe no da un total utilizable, y no todos los eventos tienen el valor.',
  'remedy.dose-report.no-total': 'Lea el valor en la consola y escríbalo.',
  'finding.dose-report.summed':
    '{what}: el informe no da un total utilizable; {sum} es la suma de sus eventos ({n}).',
  'remedy.dose-report.summed': 'Compárelo con la consola.',
  'finding.dose-report.no-events':
    'El informe no enumera eventos de irradiación: sus totales no se pueden comprobar con ellos.',
  'remedy.dose-report.no-events': 'No hace falta nada si no se usó radiación.',
  'finding.dose-report.sum-differs':
    '{what}: el informe da un total de {total}, pero sus partes suman {sum}.',
  'remedy.dose-report.sum-differs': 'Compare con la consola antes de usar el valor.',
  'finding.dose-report.events-missing':
    'El informe cuenta {counted} eventos de irradiación, pero enumera {found}.',
  'remedy.dose-report.events-missing': 'Compare con la consola antes de usar los valores.',
  'finding.dose-report.same-twice': '{file} es el mismo informe que {other} y se contó una vez.',
  'remedy.dose-report.same-twice': 'No hace falta nada.',
  'finding.dose-report.instance-clash':
    '{file} y {other} tienen la misma SOP Instance UID pero contenidos distintos. No se sumó nada.',
  'remedy.dose-report.instance-clash': 'Exporte ambos de nuevo y use el que tiene el archivo de imágenes.',
  'finding.dose-report.two-patients': '{file} y {other} son de pacientes distintos. No se sumó nada.',
  'remedy.dose-report.two-patients': 'Dé los informes de un solo paciente.',
  'finding.dose-report.two-cases':
    '{file} y {other} no comparten ni estudio ni número de acceso. No se sumó nada.',
  'remedy.dose-report.two-cases':
    'Dé los informes de un solo caso; los casos anteriores van en radiation.earlier.',
  'finding.dose-report.superseded': '{file} está contenido en el informe posterior {other} y no se sumó.',
  'remedy.dose-report.superseded': 'No hace falta nada.',
  'finding.dose-report.overlap': 'No se puede saber si {other} contiene la dosis de {file}. No se sumó nada.',
  'remedy.dose-report.overlap': 'Compare ambos con la consola y dé el que esté completo.',
  'finding.dose-report.added': 'Se sumaron los valores de {n} informes: {systems}.',
  'remedy.dose-report.added': 'Compruebe que todos pertenecen a este caso.',
  'finding.dose-report.other-patient':
    '{file} parece ser de otro paciente. {what}: {found} en el informe, {recorded} en el registro.',
  'remedy.dose-report.other-patient':
    'Compruebe el paciente en ambos. No tome nada de este informe hasta aclararlo.',
  'finding.dose-report.patient-differs':
    '{what} difiere en {file}: {found} en el informe, {recorded} en el registro.',
  'remedy.dose-report.patient-differs':
    'Compruebe que ambos son del mismo paciente y corrija el que esté mal.',
  'finding.dose-report.patient-unsaid':
    '{file} y el registro no tienen ningún dato en común para comparar el paciente.',
  'remedy.dose-report.patient-unsaid': 'Compruebe usted que el informe es de este paciente.',
  'finding.dose-report.other-case':
    '{file} pertenece a otro caso: número de acceso {found} en el informe, {recorded} en el registro.',
  'remedy.dose-report.other-case':
    'Compruebe el número de acceso. No tome nada de este informe hasta aclararlo.',
  'finding.dose-report.said-none': 'El registro dice que no se usó radiación, pero hay un informe de dosis.',
  'remedy.dose-report.said-none': 'Corrija radiation, o compruebe que el informe pertenece a este caso.',
  'finding.dose-report.not-recorded': '{what} no está en el registro; el informe de dosis da {found}.',
  'remedy.dose-report.not-recorded': 'Añádalo al registro.',
  'finding.dose-report.other-unit':
    '{what}: {recorded} en el registro, {found} en el informe de dosis. El número sería correcto en {unit}.',
  'remedy.dose-report.other-unit': 'Corrija la unidad en el registro.',
  'finding.dose-report.factor':
    '{what}: {recorded} en el registro, {found} en el informe de dosis: difieren en un factor de {factor}.',
  'remedy.dose-report.factor': 'Compruebe el punto decimal en el registro.',
  'finding.dose-report.differs': '{what}: {recorded} en el registro, {found} en el informe de dosis.',
  'remedy.dose-report.differs': 'Compare ambos con la consola y corrija el registro.',
} as const satisfies Partial<Record<MessageKey, string>>;
