import type { MessageKey } from '../../../message.js';

/** Befunde zu dem, was spätere Fälle bei Zielen ändern. */
export const registerDestinationFindings = {
  'finding.register.not-ours':
    '{destination}: {address}, zu Fall {case} angelegt, betrifft jetzt eine andere Person oder ein anderes Produkt. Dort wurde nichts von diesem Fall geändert.',
  'remedy.register.not-ours':
    'Klären Sie bei {destination}, wer das geändert hat. Wenn es stimmt, führen Sie casetally register update-destinations aus.',
  'finding.register.several-there':
    '{destination} hat mehrere Ressourcen unter einer Kennung von Fall {case}: {addresses}. Keine davon wurde geändert.',
  'remedy.register.several-there':
    'Lassen Sie die Doppelten bei {destination} entfernen und führen Sie dann casetally register update-destinations aus.',
  'finding.register.gone':
    '{destination} hat {address} von Fall {case} nicht mehr. Es wurde nicht neu angelegt.',
  'remedy.register.gone':
    'Wurde es versehentlich gelöscht, lassen Sie es bei {destination} wiederherstellen und führen Sie dann casetally register update-destinations --to {destination} --all aus.',
  'finding.register.no-versions':
    '{destination} nennt keine Version von {address} (Fall {case}), sodass eine gleichzeitige Änderung durch andere überschrieben würde. Es wurde nicht aktualisiert.',
  'remedy.register.no-versions':
    'Lassen Sie es bei {destination} von Hand aktualisieren; oder nehmen Sie das in Kauf: casetally register update-destinations --without-versions.',
  'finding.register.update-refused':
    '{destination} hat das Lesen oder Aktualisieren von {address} (Fall {case}) abgelehnt (HTTP {status}).',
  'remedy.register.update-refused':
    'Fragen Sie die Verantwortlichen von {destination}, ob dieser Absender suchen, lesen und aktualisieren darf, und führen Sie dann casetally register update-destinations aus.',
  'finding.register.not-whole':
    '{destination} gab nur einen Teil von {address} (Fall {case}) zurück. Es wurde nicht aktualisiert, weil der Rest verloren ginge.',
  'remedy.register.not-whole':
    'Bitten Sie die Verantwortlichen von {destination}, diesen Absender ganze Ressourcen lesen zu lassen, und führen Sie dann casetally register update-destinations aus.',
} as const satisfies Partial<Record<MessageKey, string>>;
