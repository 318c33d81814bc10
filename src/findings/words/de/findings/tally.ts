import type { MessageKey } from '../../../message.js';

/** Die Zählung dessen, was hineinging und herauskam. */
export const tallyFindings = {
  'remedy.device.kind-unknown': '{suggestion}',
  'finding.device.kind-read': '„{kind}“ ({device}) wird als „{row}“ gelesen.',
  'remedy.device.kind-read':
    'Schreiben Sie die Art so, wie sie in der Tabelle steht, oder geben Sie die Familie an, wenn es etwas anderes war.',
  'finding.acknowledged.nothing': 'Nichts ergibt hier den Befund „{code}“{about}, den das Protokoll annimmt.',
  'remedy.acknowledged.nothing':
    'Streichen Sie die Zeile unter acknowledged, oder berichtigen Sie ihren Code oder das, worum es geht.',
  'remedy.acknowledged.error': 'Beheben Sie, was der Fehler nennt.',
  'finding.tally.no-device': 'Das Ereignis „{verb}“ um {time} sagt nicht, um welches Produkt es geht.',
  'remedy.tally.no-device': 'Ergänzen Sie device mit dem Schlüssel.',
  'finding.tally.not-inserted':
    '{device}: um {time} {done}, aber nichts davor sagt, dass es eingebracht wurde.',
  'remedy.tally.not-inserted':
    'Ergänzen Sie das Einbringen, oder berichtigen Sie Zeit oder Schlüssel; schreiben Sie carried, wenn es in einem früheren Fall eingelegt wurde.',
  'finding.tally.already-out': '{device}: um {time} {done}, aber schon um {earlier} entfernt.',
  'remedy.tally.already-out':
    'Streichen Sie eines der beiden Ereignisse, berichtigen Sie eine Zeit, oder ergänzen Sie das erneute Einbringen.',
  'finding.tally.inserted-twice':
    '{device}: um {time} eingeführt, aber schon seit {earlier} im Körper, und die Entfernung ist nicht dokumentiert.',
  'remedy.tally.inserted-twice':
    'Ergänzen Sie dazwischen die Entfernung, oder geben Sie dem zweiten Produkt einen eigenen Eintrag.',
  'finding.tally.over-not-inside': '{device}: um {time} {done} über {other:acc}, aber {other} {where}.',
  'remedy.tally.over-not-inside':
    'Nennen Sie, worüber es lief, oder berichtigen Sie die Reihenfolge der Ereignisse.',
  'finding.tally.no-wire':
    'Um {time} wird {device} über {other:acc} gewechselt, aber {other} {where}: kein Draht hielt den Weg.',
  'remedy.tally.no-wire':
    'Nennen Sie den liegenden Draht, ergänzen Sie sein Einbringen, oder berichtigen Sie die Zeiten.',
  'finding.tally.through-not-inside': '{device}: um {time} {done} durch {other:acc}, aber {other} {where}.',
  'remedy.tally.through-not-inside':
    'Nennen Sie, wodurch es ging, oder berichtigen Sie die Reihenfolge der Ereignisse.',
  'finding.tally.lumen-taken':
    'Um {time} geht {device} durch {host:acc} neben {other:dat}: zusammen {both}, das Lumen nimmt {lumen} auf; nur eines passt hindurch.',
  'remedy.tally.lumen-taken':
    'Ergänzen Sie davor die Entfernung ({other}), oder sagen Sie, dass eines über das andere läuft.',
  'finding.tally.exchange-unsaid': 'Um {time} wird {device} eingewechselt, aber nichts sagt, was herauskam.',
  'remedy.tally.exchange-unsaid':
    'Ergänzen Sie replaces mit dem Schlüssel des entfernten Produkts, oder schreiben Sie insert.',
  'finding.tally.not-inflated': '{device}: um {time} entleert, aber nichts davor sagt, dass gefüllt wurde.',
  'remedy.tally.not-inflated': 'Ergänzen Sie das Füllen, oder berichtigen Sie die Zeiten.',
  'remedy.tally.removed-inflated': 'Ergänzen Sie das Entleeren.',
  'remedy.tally.removed-locked': 'Ergänzen Sie unlock, oder cut, wenn der Faden durchgeschnitten wurde.',
  'remedy.tally.thread-undeclared':
    'Tragen Sie den Faden unter parts ein, und sagen Sie, was daraus wurde, oder nehmen Sie an, dass es keinen gibt.',
  'finding.tally.discarded-inside':
    '{device}: um {time} als unbenutzt verworfen, aber im Körper: {inside}, und keines bleibt zum Verwerfen.',
  'remedy.tally.discarded-inside': 'Ergänzen Sie davor die Entfernung, oder berichtigen Sie die Anzahl.',
  'finding.tally.count-over': '{device}: um {time} {done}, Anzahl {number}; möglich sind nur {there}.',
  'remedy.tally.count-over': 'Berichtigen Sie count im Ereignis oder am Produkt.',
  'finding.tally.count-differs':
    '{device}: um {time} gezählt {number}; nach den Ereignissen im Körper {inside}, außerhalb {outside}.',
  'remedy.tally.count-differs':
    'Zählen Sie noch einmal; berichtigen Sie count in den Ereignissen oder am Produkt.',
  'finding.tally.count-removed': '{device}: um {time} entfernt {number}, aber nur {inside} im Körper.',
  'remedy.tally.count-removed': 'Berichtigen Sie die Anzahl dessen, was hineinging und herauskam.',
  'finding.tally.count-unaccounted':
    '{device}: kein Ereignis sagt, was aus {number} von insgesamt {total} wurde.',
  'remedy.tally.count-unaccounted':
    'Ergänzen Sie count an den Ereignissen, die sie eingebracht haben, oder ein Ereignis discard oder count für den Rest.',
  'finding.tally.no-events':
    '{device} gilt als verwendet, und kein Ereignis sagt, dass es eingebracht oder verworfen wurde.',
  'remedy.tally.no-events':
    'Ergänzen Sie die Ereignisse, oder setzen Sie use auf opened unused, unopened oder failed.',
  'finding.tally.unused-but-used': '{device}: „{use}“, aber {where}.',
  'remedy.tally.unused-but-used': 'Berichtigen Sie use oder den Schlüssel im Ereignis.',
  'finding.tally.unaccounted':
    '{device}: um {time} eingebracht; eine Entfernung ist nicht dokumentiert, und „left“ nennt es nicht.',
  'remedy.tally.unaccounted':
    'Prüfen Sie, ob es entfernt wurde: Ergänzen Sie die Entfernung ({removal}), oder tragen Sie {key} unter „left“ ein, mit purpose temporary oder unintended, und until. „withdraw“ heißt zurückziehen, nicht entfernen.',
  'finding.tally.part-unaccounted':
    '{part}: {why}; nichts sagt, dass es entfernt oder wissentlich belassen wurde.',
  'remedy.tally.part-unaccounted':
    'Ergänzen Sie ein Ereignis remove mit device {device} und part {key}, oder tragen Sie das Teil unter „left“ ein, mit purpose temporary oder unintended, und until.',
  'finding.tally.pieces':
    '{device}: seit {time} in Stücken ({pieces}), und der Verbleib ist nicht geklärt für {missing}.',
  'remedy.tally.pieces':
    'Tragen Sie jedes Stück unter parts ein (kind fragment), und sagen Sie, was daraus wurde, oder geben Sie pieces an der Entfernung an, die mehrere brachte.',
  'finding.tally.fragment-unbroken':
    '{part}: kein Ereignis vor {time} sagt, dass es abgeschnitten wurde oder abbrach.',
  'remedy.tally.fragment-unbroken':
    'Ergänzen Sie das Ereignis cut oder fracture, oder streichen Sie das Teil aus der Liste.',
  'finding.tally.missing-part-unsaid':
    '{device}: um {time} unvollständig entfernt, und nichts sagt, welches Teil fehlt oder wo es ist.',
  'remedy.tally.missing-part-unsaid':
    'Tragen Sie das Teil unter parts ein, und sagen Sie, was daraus wurde: entfernt, verloren oder unter „left“ genannt.',
  'remedy.tally.damaged':
    'Schreiben Sie part missing, wenn etwas fehlt, oder nehmen Sie an, dass es vollständig war.',
  'finding.tally.left-removed': '„left“ nennt {what:acc}, aber die Entfernung ist um {time} dokumentiert.',
  'remedy.tally.left-removed':
    'Streichen Sie es unter „left“, oder berichtigen Sie das Ereignis der Entfernung.',
  'finding.tally.left-never-in':
    '„left“ nennt {what:acc}, aber kein Ereignis sagt, dass es eingebracht wurde.',
  'remedy.tally.left-never-in':
    'Streichen Sie es unter „left“, ergänzen Sie das Einbringen, oder schreiben Sie carried, wenn es in einem früheren Fall eingelegt wurde.',
  'finding.tally.left-count': '{what}: nach „left“ bleiben {said}; nach den Ereignissen sind es {number}.',
  'remedy.tally.left-count':
    'Zählen Sie auf dem letzten Bild nach, und berichtigen Sie dann die Zahl oder die Ereignisse.',
  'remedy.tally.left-count-missing': 'Ergänzen Sie count in dieser Zeile, damit die Zahl zweimal gesagt ist.',
  'finding.tally.left-twice': '„left“ nennt {what:acc} zweimal; zuerst in {first}.',
  'remedy.tally.left-twice': 'Behalten Sie eine der beiden Zeilen.',
  'finding.tally.purpose-missing':
    '„left“ nennt {what:acc}, nicht zum Verbleib gemacht, und sagt nicht, ob der Verbleib gewollt ist.',
  'remedy.tally.purpose-missing': 'Ergänzen Sie purpose: temporary, intended oder unintended.',
  'remedy.tally.no-condition':
    'Ergänzen Sie until oder latest unter left, oder einen Eintrag dafür in aftercare.',
  'remedy.tally.retained':
    'Sagen Sie unter complications, was deswegen getan wurde, und unter advice, was dem Patienten gesagt wurde, und nehmen Sie diese Zeile an.',
  'finding.tally.retained-unsaid':
    '{what}: um {time} verloren und nicht entfernt, und „left“ nennt es nicht.',
  'remedy.tally.retained-unsaid': 'Tragen Sie es unter „left“ ein, mit purpose unintended, site und until.',
  'finding.tally.carried-unsaid':
    '{device} lag schon vor dem Fall; eine Entfernung ist nicht dokumentiert, und „left“ nennt es nicht.',
  'remedy.tally.carried-unsaid':
    'Bleibt es, tragen Sie {key} unter „left“ mit until oder latest ein; wurde es entfernt, ergänzen Sie die Entfernung ({removal}).',
  'remedy.tally.carried-case':
    'Ergänzen Sie die Kennung des früheren Falls unter carried, damit dessen Eintrag geschlossen werden kann.',
} satisfies Partial<Record<MessageKey, string>>;
