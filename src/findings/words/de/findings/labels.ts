import type { MessageKey } from '../../../message.js';

const compare = 'Vergleichen Sie es mit dem Etikett; war es gescannt, scannen Sie noch einmal.';

/** Etiketten und Produktkatalog. */
export const labelFindings = {
  'finding.label.not-a-label':
    'Das ist kein Produktetikett: es beginnt mit {found}; ein Etikett beginnt mit ( oder Ziffern (GS1), + (HIBC) oder = (ISBT 128).',
  'remedy.label.not-a-label':
    'Scannen Sie das Etikett noch einmal, oder tippen Sie es ab, wie es gedruckt ist, mit den Klammern.',
  'finding.label.too-long': 'Der Text hat {found} Zeichen; ein Etikett hat höchstens {limit}.',
  'remedy.label.too-long': 'Geben Sie ein Etikett nach dem anderen ein.',
  'finding.label.symbology':
    'Mit dem Symbologie-Präfix {found} kommen keine GS1-Daten (]C1, ]d2, ]Q3, ]e0, ]J1).',
  'remedy.label.symbology':
    'Prüfen Sie, ob das ganze Symbol gescannt wurde, und das richtige auf der Packung.',
  'finding.label.symbology-unknown':
    'Die Zeichen 1 bis 3, {found}, sind kein Symbologie-Präfix, das Scanner senden.',
  'remedy.label.symbology-unknown': 'Scannen Sie das Etikett noch einmal.',
  'finding.label.unknown-identifier': 'An Zeichen {at} steht {found}, kein Datenbezeichner (AI) von GS1.',
  'remedy.label.unknown-identifier':
    'Vergleichen Sie die zwei bis vier Ziffern mit dem Etikett; waren sie gescannt, scannen Sie noch einmal.',
  'finding.label.bracket':
    'Eine Klammer eines Datenbezeichners scheint an Zeichen {at} beschädigt ({what}): {found}.',
  'remedy.label.bracket': 'Schreiben Sie jeden Datenbezeichner in Klammern, etwa (10).',
  'finding.label.brackets-in-scan':
    'Die gescannten Daten selbst enthalten Klammern; nur der Druck sollte sie haben.',
  'remedy.label.brackets-in-scan':
    'Das Etikett wurde wie gedruckt gelesen; sagen Sie es dem Hersteller oder denen, die den Scanner eingerichtet haben.',
  'finding.label.length': '{what} an Zeichen {at}: {found} Zeichen; erwartet: {expected}.',
  'remedy.label.length': compare,
  'finding.label.character': '{what}: an Zeichen {at} steht {found}; erwartet: {expected}.',
  'remedy.label.character':
    'Vergleichen Sie dieses Zeichen mit dem Etikett; war es gescannt, scannen Sie noch einmal.',
  'finding.label.spaces': '{what} an Zeichen {at}: Leerzeichen darin wurden weggelassen.',
  'remedy.label.spaces': 'Nichts zu tun, wenn die Ziffern stimmen.',
  'finding.label.check-digit':
    '{what} an Zeichen {at}: die Prüfziffer ist {found}; die anderen Ziffern ergeben {expected}.',
  'remedy.label.check-digit':
    'Vergleichen Sie alle Ziffern mit dem Etikett; eine ist falsch, oder das Etikett wurde falsch gedruckt.',
  'finding.label.check-character':
    'Das Prüfzeichen an Zeichen {at} ist {found}; die Zeichen davor ergeben {expected}.',
  'remedy.label.check-character':
    'Vergleichen Sie alle Zeichen mit dem Etikett; eines ist falsch oder fehlt. Ein Leerzeichen als Prüfzeichen wird als _ getippt.',
  'finding.label.check-character-space':
    'Das Prüfzeichen an Zeichen {at} ist {found}; die Zeichen davor ergeben {expected}, und {found}, wenn darunter ein Leerzeichen verloren ging.',
  'remedy.label.check-character-space':
    'Vergleichen Sie alle Zeichen mit dem Etikett; wo ein langes Etikett umbrochen ist, geht ein Leerzeichen verloren.',
  'finding.label.check-character-missing':
    'Das Etikett endet an Zeichen {at} ohne sein Prüfzeichen ({expected}); nichts belegt den Rest.',
  'remedy.label.check-character-missing':
    'Vergleichen Sie alle Zeichen mit dem Etikett, oder scannen Sie es.',
  'finding.label.trailing-space':
    'Das Etikett wurde ohne das Leerzeichen an seinem Ende gelesen (Zeichen {at}).',
  'remedy.label.trailing-space': 'Nichts zu tun, wenn das Etikett dort kein Leerzeichen hat.',
  'finding.label.asterisk':
    'Ein Sternchen steht nur an einem Ende, Zeichen {at}; um das gedruckte Etikett stehen zwei.',
  'remedy.label.asterisk': 'Vergleichen Sie beide Enden mit dem Etikett.',
  'finding.label.link-character':
    'Das Verbindungszeichen an Zeichen {at} ist {found}; das erste Symbol verlangt {expected}.',
  'remedy.label.link-character':
    'Die Symbole gehören zu zwei Produkten, oder eines wurde falsch gelesen: scannen Sie beide noch einmal.',
  'finding.label.structure': 'An Zeichen {at} steht {found}; erwartet: {expected}.',
  'remedy.label.structure':
    'Vergleichen Sie diese Stelle mit dem Etikett; war sie gescannt, scannen Sie noch einmal.',
  'finding.label.unusual-character':
    '{what}: an Zeichen {at} steht {found}; die Norm kennt dort nur A bis Z und 0 bis 9.',
  'remedy.label.unusual-character': 'Vergleichen Sie dieses Zeichen mit dem Etikett.',
  'finding.label.date-flag-missing':
    'Nach der Menge an Zeichen {at} ist keine Datumsform angegeben; der Rest wurde so gelesen: {what}.',
  'remedy.label.date-flag-missing': 'Vergleichen Sie es mit dem Etikett.',
  'finding.label.provider-code':
    'Das / an Zeichen {at} weist auf einen Code eines Krankenhauses (HIBC provider applications), nicht eines Produktherstellers.',
  'remedy.label.provider-code': 'Scannen Sie das Etikett des Herstellers.',
  'finding.label.date': '{what} an Zeichen {at}: {found}; diesen Tag gibt es nicht.',
  'remedy.label.date': 'Vergleichen Sie es mit dem Etikett. Die anderen Teile des Etiketts wurden gelesen.',
  'finding.label.dates-order':
    'Das Etikett nennt als Herstellung {made} (Zeichen {madeAt}) und als Verfall {expires} (Zeichen {expiresAt}), also früher.',
  'remedy.label.dates-order': 'Vergleichen Sie beide Daten mit dem Etikett.',
  'finding.label.separator-lost':
    '{what} an Zeichen {at}: danach ging das Trennzeichen verloren; nur eine Lesart ist möglich: {reading}.',
  'remedy.label.separator-lost':
    'Vergleichen Sie die Lesart mit dem Etikett, und stellen Sie den Scanner so ein, dass er das Gruppentrennzeichen sendet.',
  'finding.label.ambiguous':
    '{what} an Zeichen {at}: ohne Trennzeichen sind {count} Enden möglich; keines wurde gewählt: {readings}.',
  'remedy.label.ambiguous':
    'Tippen Sie das Etikett mit den Klammern ab, oder stellen Sie den Scanner so ein, dass er das Gruppentrennzeichen sendet.',
  'finding.label.repeated': '{what} steht zweimal: {first} und, an Zeichen {at}, {second}.',
  'remedy.label.repeated': 'Vergleichen Sie beide mit dem Etikett; scannen Sie ein Symbol nach dem anderen.',
  'finding.label.needs': '{what} an Zeichen {at} darf nur stehen neben: {expected}.',
  'remedy.label.needs':
    'Scannen Sie auch das Symbol mit der Produktkennung; vergleichen Sie die Datenbezeichner mit dem Etikett.',
  'finding.label.excludes': '{what} an Zeichen {at} darf nicht stehen neben: {found}.',
  'remedy.label.excludes': 'Vergleichen Sie die Datenbezeichner mit dem Etikett.',
  'finding.label.no-device-identifier': 'Das Etikett enthält keine Produktkennung (UDI-DI).',
  'remedy.label.no-device-identifier':
    'Scannen Sie das Symbol, das sie enthält (GS1: das mit (01); HIBC: das, das mit + und einem Buchstaben beginnt).',
  'finding.label.bare-number':
    'Die {found} Ziffern wurden allein als Artikelnummer (GTIN) von GS1 gelesen, ohne Charge, Seriennummer oder Verfall.',
  'remedy.label.bare-number':
    'Scannen Sie auch das Symbol mit den Herstellungsdaten, wenn die Packung eines hat.',
  'finding.label.suspect-keyboard':
    'Der Text sieht verfälscht aus ({cause}); gemeint war vielleicht {proposal} ({check}).',
  'remedy.label.suspect-keyboard':
    'Vergleichen Sie den Vorschlag mit dem Etikett, und geben Sie ihn ein, wenn er stimmt; stellen Sie den Scanner auf die Tastatur des Rechners ein.',
  'finding.label.serial-zero': 'Der Teilungscode an Zeichen {at} ist 000000, was die Norm verbietet.',
  'remedy.label.serial-zero': 'Vergleichen Sie ihn mit dem Etikett.',
  'finding.label.header-count': 'Der Kopf kündigt {expected} Strukturen an; es folgen {found}.',
  'remedy.label.header-count': 'Scannen Sie das Etikett noch einmal.',
  'finding.label.conflict': '{device}, {what}: eingetippt ist {typed}, auf dem Etikett steht {label}.',
  'remedy.label.conflict':
    'Berichtigen Sie das Eingetippte oder den Text des Etiketts; bis dahin gilt das Etikett.',
  'finding.label.expired': '{device} verfiel am {expires}, vor dem Tag des Falls ({date}).',
  'remedy.label.expired':
    'Berichtigen Sie das Datum oder das Produkt; wurde es verwendet, sagen Sie warum, und melden Sie es nach der Vorgabe der Einrichtung.',
  'finding.label.expires-soon': '{device}: Verfall am {expires}, binnen {days} Tagen nach dem Fall.',
  'remedy.label.expires-soon': 'Sagen Sie es denen, die das Lager führen.',
  'finding.label.serial-twice':
    '{device} und {other} tragen dieselbe Kennung {di} und dieselbe Seriennummer {serial}.',
  'remedy.label.serial-twice': 'Scannen Sie jedes Produkt einmal; löschen Sie den doppelten Eintrag.',
  'finding.label.serial-other-case':
    '{device} trägt Kennung {di} und Seriennummer {serial}, schon dokumentiert im Fall {case}.',
  'remedy.label.serial-other-case':
    'Ist es dasselbe Produkt, sagen Sie, dass es aus jenem Fall stammt; sonst scannen Sie es noch einmal.',
  'finding.label.lot-missing': '{device} ist ein Implantat und hat keine Chargennummer{alternative}.',
  'remedy.label.lot-missing': 'Scannen Sie das Etikett, oder tippen Sie die Charge ein.',
  'finding.label.identifier-missing': '{device} verbleibt im Körper und hat keine Produktkennung.',
  'remedy.label.identifier-missing':
    'Scannen Sie das Etikett; ist es verloren, sagen Sie das mit einem Grund.',
  'finding.catalogue.unreadable': 'Zeile {line} des Produktkatalogs ist nicht lesbar: {problem}.',
  'remedy.catalogue.unreadable': 'Berichtigen Sie diese Zeile; lesbare Zeilen danach wurden verwendet.',
  'finding.catalogue.column-missing': 'Dem Produktkatalog fehlt die Spalte {column}.',
  'remedy.catalogue.column-missing':
    'Nennen Sie die Spalten in der ersten Zeile: di, description, kind, maker, reference, sizes, implant, mri, dwell.',
  'finding.catalogue.value': 'Zeile {line} des Produktkatalogs: {column} ist {found}; erwartet: {expected}.',
  'remedy.catalogue.value': 'Berichtigen Sie diese Zeile; ihre anderen Spalten wurden verwendet.',
  'finding.catalogue.identifier':
    'Zeile {line} des Produktkatalogs hat {found} als Produktkennung; erwartet: {expected}.',
  'remedy.catalogue.identifier': 'Berichtigen Sie diese Zeile; sie wurde ausgelassen.',
  'finding.catalogue.repeated':
    'Zeile {line} des Produktkatalogs wiederholt die Produktkennung {di} der Zeile {first} mit anderen Angaben.',
  'remedy.catalogue.repeated': 'Behalten Sie eine der beiden Zeilen; die erste wurde verwendet.',
  'finding.catalogue.conflict':
    '{device}, {what}: {recorded} ({source}), im Produktkatalog dagegen {catalogue}.',
  'remedy.catalogue.conflict':
    'Berichtigen Sie den Eintrag oder den Katalog; bis dahin gilt das Dokumentierte.',
} satisfies Partial<Record<MessageKey, string>>;
