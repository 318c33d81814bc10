import type { MessageKey } from '../../../message.js';

/** Antworten auf das Formular des Datensatzes. */
export const formFindings = {
  'finding.form.too-big': 'Die Antwort hat {size} Bytes; gelesen werden höchstens {limit}.',
  'remedy.form.too-big': 'Senden Sie nur die Antworten, ohne Anhänge.',
  'finding.form.too-many': 'Die Antwort hat {count} Objekte und Listen; gelesen werden höchstens {limit}.',
  'remedy.form.too-many': 'Prüfen Sie, ob Einträge versehentlich wiederholt wurden.',
  'finding.form.too-deep': 'Die Antwort ist tiefer als {limit} Ebenen verschachtelt.',
  'remedy.form.too-deep': 'Senden Sie die Einträge so verschachtelt, wie das Formular sie hat.',
  'finding.form.not-json': 'Die Antwort kann nicht als JSON gelesen werden: {problem}.',
  'remedy.form.not-json': 'Senden Sie die QuestionnaireResponse als FHIR-JSON.',
  'finding.form.twice-in-json': 'Ein Objekt der Antwort hat das Element {name} zweimal.',
  'remedy.form.twice-in-json':
    'Berichtigen Sie das Programm, das die Antwort schreibt: eines der beiden ginge verloren.',
  'finding.form.not-a-response': 'Dies ist keine QuestionnaireResponse: resourceType ist {found}.',
  'remedy.form.not-a-response':
    'Senden Sie eine einzelne QuestionnaireResponse, kein Bundle und keine andere Ressource.',
  'finding.form.not-understood':
    '{element} kann die Bedeutung der Antworten ändern, und Casetally versteht es nicht: {value}.',
  'remedy.form.not-understood': 'Senden Sie die Antwort ohne {element}.',
  'finding.form.entered-in-error':
    'Die Antwort ist als irrtümlich eingegeben gekennzeichnet: Es wird kein Datensatz daraus erstellt.',
  'remedy.form.entered-in-error': 'Füllen Sie das Formular neu aus, unter dem richtigen Patienten und Fall.',
  'finding.form.other-questionnaire': 'Die Antwort gehört zu einem anderen Formular: {found}.',
  'remedy.form.other-questionnaire': 'Füllen Sie {expected} aus; casetally questionnaire gibt es aus.',
  'finding.form.no-questionnaire': 'Die Antwort sagt nicht, zu welchem Formular sie gehört.',
  'remedy.form.no-questionnaire': 'Setzen Sie questionnaire auf {expected}.',
  'finding.form.other-version':
    'Die Antwort wurde mit Version {found} des Formulars erstellt; dies ist Version {expected}.',
  'remedy.form.other-version': 'Rufen Sie das Formular neu ab, wenn Casetally aktualisiert wird.',
  'finding.form.not-completed': 'Das Formular wurde nicht abgeschlossen: status ist {status}.',
  'remedy.form.not-completed':
    'Schließen Sie das Formular ab und senden Sie es mit status completed; bis dahin sind seine Werte Vorschläge.',
  'finding.form.no-date': 'Die Antwort sagt nicht, wann sie erstellt wurde: authored ist {found}.',
  'remedy.form.no-date':
    'Setzen Sie authored auf Datum und Uhrzeit mit Zeitzone, etwa 2024-03-14T10:05:00+00:00.',
  'finding.form.unknown-item': 'Das Formular hat keinen Eintrag {linkId}; nicht im Datensatz: {value}.',
  'remedy.form.unknown-item': 'Verwenden Sie eine linkId des Formulars, oder lassen Sie den Eintrag weg.',
  'finding.form.misplaced':
    'Der Eintrag {linkId} steht nicht dort, wo das Formular ihn hat; nicht im Datensatz: {value}.',
  'remedy.form.misplaced': 'Setzen Sie ihn in {group}, wie das Formular ihn verschachtelt.',
  'finding.form.twice':
    '{linkId} ist mehrfach beantwortet und darf nur einmal beantwortet werden; nicht im Datensatz: {value}.',
  'remedy.form.twice': 'Behalten Sie die richtige Antwort.',
  'finding.form.wrong-type':
    '{linkId} ist mit {found} beantwortet; erwartet: {expected}. Nicht im Datensatz: {value}.',
  'remedy.form.wrong-type': 'Senden Sie die Antwort als {expected}.',
  'finding.form.not-a-choice': '{linkId} hat keine Auswahl {value}; sie ist nicht im Datensatz.',
  'remedy.form.not-a-choice': 'Wählen Sie einen dieser Codes, ohne system: {allowed}.',
  'finding.form.part-left-out': 'Vom Code in {linkId} ist {parts} nicht im Datensatz: {value}.',
  'remedy.form.part-left-out':
    'Nichts zu tun, es sei denn, der Code hängt davon ab; dann schreiben Sie es in eine Notiz.',
  'finding.form.no-key':
    'Ein Eintrag hat keine Antwort auf {linkId}, sodass nichts auf ihn verweisen kann; nicht im Datensatz: {value}.',
  'remedy.form.no-key': 'Beantworten Sie {linkId} mit einem kurzen Namen, etwa drain oder wire1.',
  'finding.form.bad-key':
    '{linkId} kann nicht {key} sein: Der Name ist schon vergeben oder reserviert. Nicht im Datensatz: {value}.',
  'remedy.form.bad-key': 'Geben Sie jedem Eintrag einen eigenen kurzen Namen.',
  'finding.form.contradiction':
    '{linkId} und {other} sind beide beantwortet, und nur eines kann gelten; nicht im Datensatz: {value}.',
  'remedy.form.contradiction': 'Nehmen Sie die falsche Antwort heraus.',
  'finding.form.other-subject':
    'Die Antwort betrifft {said} ({element}), und {linkId} ist mit {answered} beantwortet.',
  'remedy.form.other-subject':
    'Klären Sie vor jedem Senden, was stimmt: Das Formular kann unter dem falschen Patienten oder Fall stehen.',
  'finding.form.more': 'Es gibt {count} weitere Befunde zur Antwort.',
  'remedy.form.more': 'Berichtigen Sie zuerst die oben genannten.',
  'finding.form.not-answered':
    '{value} ist mehr, als eine ganze Zahl in FHIR sein kann ({limit}), und steht daher nicht in der Antwort.',
  'remedy.form.not-answered': 'Berichtigen Sie die Zahl.',
} satisfies Partial<Record<MessageKey, string>>;
