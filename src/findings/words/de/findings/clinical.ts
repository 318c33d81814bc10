import type { MessageKey } from '../../../message.js';

/** Klinische Befunde. */
export const clinicalFindings = {
  'remedy.clinical.dose-unit-slip': 'Lesen Sie beide Werte und ihre Einheiten an der Konsole noch einmal ab.',
  'finding.clinical.dose-field-narrow':
    'Kerma-Flächenprodukt {product} und Luftkerma {kerma} ergeben ein mittleres Feld von {area} cm², unter {limit} cm²: das Strahlenfeld war eng, oder einer der Werte ist um den Faktor zehn falsch.',
  'remedy.clinical.dose-field-narrow':
    'Lesen Sie beide Werte und ihre Einheiten an der Konsole noch einmal ab, wenn das Strahlenfeld nicht eng war.',
  'remedy.clinical.dose-rate': 'Lesen Sie Zeit, Dosis und ihre Einheiten an der Konsole noch einmal ab.',
  'remedy.clinical.dose-scan-length': 'Lesen Sie beide Werte und ihre Einheiten am CT noch einmal ab.',
  'finding.clinical.dose-notify': '{what} {value} erreichte die Meldeschwelle von {limit}{steps}.',
  'remedy.clinical.dose-notify':
    'Sagen Sie es der durchführenden Person, und vermerken Sie es nach der örtlichen Vorgabe.',
  'remedy.clinical.dose-substantial':
    'Planen Sie eine Hautkontrolle, und sagen Sie dem Patienten, worauf zu achten ist, nach der örtlichen Vorgabe; nehmen Sie die Warnung mit dieser Angabe an.',
  'finding.clinical.dose-local':
    'Das Kerma-Flächenprodukt {value} liegt über dem örtlichen Referenzwert von {limit} für {kind}.',
  'remedy.clinical.dose-local': 'Vermerken Sie den Grund, wenn er bekannt ist.',
  'remedy.clinical.skin-review-missing':
    'Ergänzen Sie in aftercare einen Eintrag für die Haut mit Datum, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.pregnant':
    'Vermerken Sie die rechtfertigende Indikation und die Abschätzung der Uterusdosis nach der örtlichen Vorgabe, und nehmen Sie die Warnung mit diesen Angaben an.',
  'remedy.clinical.pregnancy-not-asked':
    'Ergänzen Sie patient.pregnant: yes, no, not applicable oder unknown.',
  'remedy.clinical.egfr-contrast':
    'Planen Sie eine Kreatininkontrolle nach der örtlichen Vorgabe, und nehmen Sie die Warnung mit dieser Angabe an.',
  'remedy.clinical.contrast-volume':
    'Prüfen Sie das Volumen; stimmt es, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.allergy-given':
    'Prüfen Sie beides. Wurde es wissentlich gegeben, nehmen Sie die Warnung mit dem Grund an und damit, wie Schaden vermieden wurde.',
  'remedy.clinical.lab-missing': 'Dokumentieren Sie den Wert, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.lab-old':
    'Dokumentieren Sie einen späteren Wert, wenn es ihn gibt, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.lab-threshold':
    'Vermerken Sie, was deswegen getan wurde, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.hold-short': 'Prüfen Sie die Zeit; stimmt sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.hold-unknown': 'Ergänzen Sie lastDose.',
  'remedy.clinical.prophylaxis-late':
    'Prüfen Sie die Zeiten; stimmen sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.prophylaxis-early':
    'Prüfen Sie die Zeiten; ergänzen Sie die weitere Gabe, wenn es eine gab, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.local-anaesthetic':
    'Prüfen Sie Dosis, Konzentration und Gewicht; überwachen Sie den Patienten nach der örtlichen Vorgabe, und nehmen Sie die Warnung damit an, was getan wurde.',
  'remedy.clinical.fasting': 'Prüfen Sie die Zeit; stimmt sie, nehmen Sie die Warnung mit dem Grund an.',
  'remedy.clinical.grade-differs':
    'Prüfen Sie den Grad oder die dokumentierten Angaben zu Behandlung, Aufenthalt und Schaden.',
  'remedy.clinical.grade-missing': 'Ergänzen Sie grade mit scale und grade.',
  'remedy.clinical.success-differs': 'Prüfen Sie die Angaben zu diesem Ziel.',
  'finding.clinical.narrowing': 'Die Einengung von {value} an „{target}“ liegt außerhalb von 0 bis 100 %.',
  'remedy.clinical.narrowing': 'Schreiben Sie die Einengung in Prozent des gesunden Durchmessers.',
  'finding.clinical.left-without-aftercare':
    '„{device}“ verbleibt im Körper, und nichts sagt, was daraus wird.',
  'remedy.clinical.left-without-aftercare':
    'Ergänzen Sie dafür einen Eintrag in aftercare, oder until oder latest unter left.',
  'finding.clinical.due-order': '„{what}“: {earlier} liegt nach {later}.',
  'remedy.clinical.due-order': 'Bringen Sie earliest, due und latest in die richtige Reihenfolge.',
  'finding.clinical.due-before-case': '„{what}“ ist am {date} fällig, bevor der Fall zu Ende war.',
  'remedy.clinical.due-before-case': 'Berichtigen Sie das Datum.',
  'remedy.clinical.due-uncountable':
    'Schreiben Sie Stunden, ganze Tage, Wochen, Monate oder Jahre, oder ein Datum; Stunden zählen ab dem Ende des Falls (case.ended).',
  'finding.clinical.dose-negative': 'Eine Dosis oder Zeit von {value} liegt unter null.',
  'remedy.clinical.dose-negative': 'Lesen Sie den Wert an der Konsole noch einmal ab.',
  'finding.clinical.pregnancy-unknown':
    'Strahlung wurde angewendet, und ob eine Schwangerschaft besteht, war nicht bekannt.',
  'remedy.clinical.pregnancy-unknown':
    'Vermerken Sie die rechtfertigende Indikation nach der örtlichen Vorgabe.',
  'finding.clinical.egfr-not-assessed':
    'Kontrastmittel wurde intravasal gegeben, und die Nierenfunktion wurde nicht beurteilt: {why}.',
  'remedy.clinical.egfr-not-assessed':
    'Ergänzen Sie das Kreatinin vor dem Fall mit seiner Zeit, Geburtsdatum und Geschlecht, soweit bekannt.',
  'remedy.clinical.kidney-injury':
    'Prüfen Sie die Werte und ihre Zeiten; sagen Sie es den Weiterbehandelnden, und nehmen Sie die Warnung damit an, wer verständigt wurde.',
  'finding.clinical.lab-undecided':
    '{lab} {value} wurde nicht am Grenzwert von {limit} für einen Eingriff mit Blutungsrisiko {risk} gemessen: es ist nur eine Schranke, oder eine brauchbare Einheit fehlt.',
  'remedy.clinical.lab-undecided': 'Schreiben Sie den gemessenen Wert, wenn es ihn gibt.',
  'remedy.clinical.prophylaxis-redose':
    'Prüfen Sie die Zeiten; ergänzen Sie die weitere Gabe, wenn es sie gab.',
  'finding.clinical.reversal-given':
    '„{drug}“ {dose} wurde um {time} gegeben, um ein anderes Mittel aufzuheben.',
  'remedy.clinical.reversal-given':
    'Achten Sie auf das Wiedereinsetzen von dessen Wirkung, nach der örtlichen Vorgabe.',
  'finding.clinical.fasting-not-recorded':
    '{what}: vor der Sedierung nicht beurteilt, denn die Zeit der letzten Aufnahme ist nicht dokumentiert.',
  'remedy.clinical.fasting-not-recorded': 'Ergänzen Sie sie unter before.fasting, wenn sie bekannt ist.',
  'remedy.clinical.narrowing-differs': 'Prüfen Sie die Einengung, das Lumen und den gesunden Durchmesser.',
  'remedy.clinical.session-without-earlier':
    'Ergänzen Sie before.earlierAttempts, und unter devices, was die frühere Sitzung belassen hat (carried).',
  'remedy.clinical.criterion-value': 'Ergänzen oder streichen Sie den Wert dieser Bedingung.',
  'remedy.clinical.capped-without-criteria':
    'Ergänzen Sie criteria am Eintrag in aftercare: Messgröße, Wert, wie lange und was dann folgt.',
  'remedy.clinical.later-than-policy':
    'Prüfen Sie das Datum; ist es so gemeint, nehmen Sie die Warnung mit dem Grund an.',
} satisfies Partial<Record<MessageKey, string>>;
