import type { MessageKey } from '../../../message.js';

/** Befunde zum Verzeichnis der Produkte im Körper. */
export const registerFindings = {
  'finding.register.held-back':
    'Fall {case} wird nicht in das Verzeichnis aufgenommen: Fehler in seiner Akte: {count}.',
  'remedy.register.held-back': 'Beheben Sie, was hier genannt ist, und nehmen Sie ihn erneut auf.',
  'finding.register.no-person':
    'Fall {case} wird ohne Person geführt: seine Akte gibt keine Nummer der Person an, oder mehrere, von denen keine gilt.',
  'remedy.register.no-person':
    'Setzen Sie patientSystem unter register in der Standortkonfiguration und führen Sie casetally register rebuild aus; oder geben Sie die Nummer in der Akte an.',
  'finding.register.several-fit':
    'Fall {case}: Produkt „{device}“ kann jedes von {uses} sein; das Verzeichnis schließt keines davon von selbst.',
  'remedy.register.several-fit':
    'Sagen Sie in carried, woher es kam (use, case, side); oder entscheiden Sie: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.contradiction':
    'Fall {case}: Produkt „{device}“ wäre {uses}, doch sie unterscheiden sich in: {what}; das Verzeichnis lässt beide offen.',
  'remedy.register.contradiction':
    'Berichtigen Sie die Akte, die nicht stimmt; oder entscheiden Sie: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.not-held':
    'Fall {case}: Produkt „{device}“ nennt einen Eintrag ({use}), der bei dieser Person nicht offen ist.',
  'remedy.register.not-held':
    'Berichtigen Sie carried.use; casetally register inside PATIENT führt auf, was es gibt.',
  'finding.register.proposed':
    'Fall {case}: nach Art und Ort kann Produkt „{device}“ {uses} sein; das allein schließt nichts.',
  'remedy.register.proposed':
    'Scannen Sie das Etikett oder nennen Sie den Eintrag in carried.use; oder entscheiden Sie: casetally register link {case} {device} USE --by NAME --why TEXT.',
  'finding.register.gap':
    'Fall {case}: Produkt „{device}“ lag dort, wo {use} sein sollte, und ist ein anderes: ein Fall dazwischen fehlt.',
  'remedy.register.gap':
    'Nehmen Sie den Fall auf, in dem es gewechselt wurde, oder berichtigen Sie die Akte.',
  'finding.register.same-serial':
    'Zwei Personen haben ein Produkt mit der Kennung {di} und der Seriennummer {serial}: {use} und {other}.',
  'remedy.register.same-serial':
    'Berichtigen Sie die Akte, die nicht stimmt; sind beide dieselbe Person: casetally register join.',
  'finding.register.version-twice':
    'Fall {case}: das Verzeichnis hat zwei verschiedene Akten, die angeben, Version {version} davon zu sein.',
  'remedy.register.version-twice': 'Geben Sie der späteren die nächste Version und nehmen Sie sie auf.',
} as const satisfies Partial<Record<MessageKey, string>>;
