import type { MessageKey } from '../../../message.js';

/** Dosisberichte. */
export const doseReportFindings = {
  'finding.dose-report.too-big':
    'Die Datei hat {found} Bytes; gelesen werden Dosisberichte bis {limit} Bytes.',
  'remedy.dose-report.too-big': 'Prüfen Sie, ob dies der Dosisbericht ist und kein Bild der Studie.',
  'finding.dose-report.not-dicom': 'Dies ist keine DICOM-Datei.',
  'remedy.dose-report.not-dicom': 'Exportieren Sie den Dosisbericht aus dem Archiv als DICOM-Datei (.dcm).',
  'finding.dose-report.damaged':
    'Die Datei ist beschädigt oder unvollständig (bei Byte {at}). Nichts daraus wurde verwendet.',
  'remedy.dose-report.damaged': 'Exportieren Sie den Dosisbericht noch einmal.',
  'finding.dose-report.syntax':
    'Die Datei ist in der Transfersyntax {found} geschrieben, die nicht gelesen wird.',
  'remedy.dose-report.syntax': 'Exportieren Sie sie als Explicit oder Implicit VR Little Endian.',
  'finding.dose-report.too-much':
    'Die Datei hat mehr als {limit} Elemente, weit mehr als ein Dosisbericht. Nichts daraus wurde verwendet.',
  'remedy.dose-report.too-much': 'Prüfen Sie, ob dies der Dosisbericht eines einzigen Falls ist.',
  'finding.dose-report.too-deep':
    'Die Datei schachtelt Sequenzen mehr als {limit} Ebenen tief. Nichts daraus wurde verwendet.',
  'remedy.dose-report.too-deep': 'Exportieren Sie den Dosisbericht noch einmal.',
  'finding.dose-report.other-object':
    'Dieses DICOM-Objekt ist kein strukturierter Bericht (SOP-Klasse {found}).',
  'remedy.dose-report.other-object': 'Wählen Sie den Dosisbericht der Studie; seine Modalität ist SR.',
  'finding.dose-report.other-report':
    'Dieser strukturierte Bericht ist kein Dosisbericht; sein Titel ist {found}.',
  'remedy.dose-report.other-report': 'Wählen Sie den Bericht mit dem Titel X-Ray Radiation Dose Report.',
  'finding.dose-report.said-twice':
    'Der Bericht nennt {what} mehrmals, mit verschiedenen Werten. Der Wert wurde weggelassen.',
  'remedy.dose-report.said-twice': 'Lesen Sie den Wert an der Konsole ab.',
  'finding.dose-report.value':
    '{what} hat einen Wert, der keine mögliche Menge ist: {found}. Er wurde weggelassen.',
  'remedy.dose-report.value': 'Lesen Sie den Wert an der Konsole ab.',
  'finding.dose-report.unit':
    '{what} ist in einer Einheit angegeben, die nicht dazu passt: {unit}. Der Wert wurde weggelassen.',
  'remedy.dose-report.unit': 'Lesen Sie Wert und Einheit an der Konsole ab.',
  'finding.dose-report.plane-twice':
    'Der Bericht hat mehrere Sätze von Summen für die Ebene {plane}. Keiner davon wurde verwendet.',
  'remedy.dose-report.plane-twice': 'Lesen Sie die Summen an der Konsole ab.',
  'finding.dose-report.planes-mixed':
    'Der Bericht hat Summen für eine einzige Ebene und für Ebene A oder B. Keine davon wurde verwendet.',
  'remedy.dose-report.planes-mixed': 'Lesen Sie die Summen an der Konsole ab.',
  'finding.dose-report.plane-unknown': 'Summen für eine unbekannte Ebene wurden weggelassen: {found}.',
  'remedy.dose-report.plane-unknown': 'Lesen Sie die Summen an der Konsole ab.',
  'finding.dose-report.name-unread':
    'Der Name der Person ist in einem Zeichensatz geschrieben, der nicht gelesen wird. Er wurde nicht verglichen.',
  'remedy.dose-report.name-unread': 'Vergleichen Sie den Namen selbst.',
  'finding.dose-report.no-instance':
    'Der Bericht hat keine SOP Instance UID: Ein doppelt übergebener Bericht ist nicht zu erkennen.',
  'remedy.dose-report.no-instance': 'Übergeben Sie jeden Bericht einmal.',
  'finding.dose-report.partial': 'Der Bericht sagt selbst, dass er nicht vollständig ist.',
  'remedy.dose-report.partial': 'Verwenden Sie den Bericht, der am Ende des Falls gesendet wurde.',
  'finding.dose-report.private': '{n} private Teile des Berichts wurden nicht gelesen ({names}).',
  'remedy.dose-report.private': 'Nichts zu tun.',
  'finding.dose-report.no-total':
    '{what}: Der Bericht nennt keine brauchbare Summe, und nicht jedes Ereignis hat den Wert.',
  'remedy.dose-report.no-total': 'Lesen Sie den Wert an der Konsole ab und tragen Sie ihn ein.',
  'finding.dose-report.summed':
    '{what}: Der Bericht nennt keine brauchbare Summe; {sum} ist die Summe seiner Ereignisse ({n}).',
  'remedy.dose-report.summed': 'Vergleichen Sie den Wert mit der Konsole.',
  'finding.dose-report.no-events':
    'Der Bericht führt keine Bestrahlungsereignisse auf: Seine Summen sind nicht daran zu prüfen.',
  'remedy.dose-report.no-events': 'Nichts zu tun, wenn keine Strahlung verwendet wurde.',
  'finding.dose-report.sum-differs':
    '{what}: Der Bericht nennt {total} als Summe, seine Teile ergeben aber {sum}.',
  'remedy.dose-report.sum-differs': 'Vergleichen Sie mit der Konsole, bevor Sie den Wert verwenden.',
  'finding.dose-report.events-missing':
    'Der Bericht zählt {counted} Bestrahlungsereignisse, führt aber {found} auf.',
  'remedy.dose-report.events-missing': 'Vergleichen Sie mit der Konsole, bevor Sie die Werte verwenden.',
  'finding.dose-report.same-twice': '{file} ist derselbe Bericht wie {other} und wurde einmal gezählt.',
  'remedy.dose-report.same-twice': 'Nichts zu tun.',
  'finding.dose-report.instance-clash':
    '{file} und {other} haben dieselbe SOP Instance UID, aber verschiedene Inhalte. Nichts wurde addiert.',
  'remedy.dose-report.instance-clash': 'Exportieren Sie beide neu und verwenden Sie den Bericht des Archivs.',
  'finding.dose-report.two-patients':
    '{file} und {other} betreffen verschiedene Personen. Nichts wurde addiert.',
  'remedy.dose-report.two-patients': 'Übergeben Sie die Berichte einer Person.',
  'finding.dose-report.two-cases':
    '{file} und {other} haben weder Studie noch Auftragsnummer gemeinsam. Nichts wurde addiert.',
  'remedy.dose-report.two-cases':
    'Übergeben Sie die Berichte eines Falls; frühere Fälle gehören in radiation.earlier.',
  'finding.dose-report.superseded':
    '{file} ist im späteren Bericht {other} enthalten und wurde nicht addiert.',
  'remedy.dose-report.superseded': 'Nichts zu tun.',
  'finding.dose-report.overlap':
    'Ob {other} die Dosis von {file} enthält, ist nicht zu erkennen. Nichts wurde addiert.',
  'remedy.dose-report.overlap': 'Vergleichen Sie beide mit der Konsole und übergeben Sie den vollständigen.',
  'finding.dose-report.added': 'Die Werte von {n} Berichten wurden addiert: {systems}.',
  'remedy.dose-report.added': 'Prüfen Sie, ob alle zu diesem Fall gehören.',
  'finding.dose-report.other-patient':
    '{file} betrifft wohl eine andere Person. {what}: {found} im Bericht, {recorded} im Protokoll.',
  'remedy.dose-report.other-patient':
    'Prüfen Sie die Person in beiden. Übernehmen Sie bis dahin nichts aus diesem Bericht.',
  'finding.dose-report.patient-differs':
    '{what} weicht ab in {file}: {found} im Bericht, {recorded} im Protokoll.',
  'remedy.dose-report.patient-differs':
    'Prüfen Sie, ob beide dieselbe Person betreffen, und berichtigen Sie die falsche Angabe.',
  'finding.dose-report.patient-unsaid':
    '{file} und das Protokoll haben keine gemeinsame Angabe, an der die Person zu vergleichen wäre.',
  'remedy.dose-report.patient-unsaid': 'Prüfen Sie selbst, ob der Bericht diese Person betrifft.',
  'finding.dose-report.other-case':
    '{file} gehört zu einem anderen Fall: Auftragsnummer {found} im Bericht, {recorded} im Protokoll.',
  'remedy.dose-report.other-case':
    'Prüfen Sie die Auftragsnummer. Übernehmen Sie bis dahin nichts aus diesem Bericht.',
  'finding.dose-report.said-none':
    'Laut Protokoll wurde keine Strahlung verwendet, aber es gibt einen Dosisbericht.',
  'remedy.dose-report.said-none':
    'Berichtigen Sie radiation, oder prüfen Sie, ob der Bericht zu diesem Fall gehört.',
  'finding.dose-report.not-recorded': '{what} fehlt im Protokoll; der Dosisbericht nennt {found}.',
  'remedy.dose-report.not-recorded': 'Tragen Sie den Wert in das Protokoll ein.',
  'finding.dose-report.other-unit':
    '{what}: {recorded} im Protokoll, {found} im Dosisbericht. Die Zahl wäre richtig in {unit}.',
  'remedy.dose-report.other-unit': 'Berichtigen Sie die Einheit im Protokoll.',
  'finding.dose-report.factor':
    '{what}: {recorded} im Protokoll, {found} im Dosisbericht: um den Faktor {factor} verschieden.',
  'remedy.dose-report.factor': 'Prüfen Sie das Komma im Protokoll.',
  'finding.dose-report.differs': '{what}: {recorded} im Protokoll, {found} im Dosisbericht.',
  'remedy.dose-report.differs': 'Vergleichen Sie beide mit der Konsole und berichtigen Sie das Protokoll.',
} as const satisfies Partial<Record<MessageKey, string>>;
