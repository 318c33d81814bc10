import type { agreementWording } from '../../wording/agreement.js';
import type { WarningKey } from '../reported.js';

/** Warnungen über zwei Stellen, die Verschiedenes sagen. */
export const agreementWarnings: Record<WarningKey<typeof agreementWording>, string> = {
  'finding.clinical.side-differs': '„{text}“ nennt die Seite {side}; {other} nennt {otherSide}.',
  'finding.clinical.side-missing': '„{what}“: angegeben ist {side}, erwartet wird {other}.',
  'finding.clinical.contrast-differs':
    'Kontrastmittel insgesamt: {total}; die Ereignisse injizieren {events} ({place}).',
  'finding.clinical.contrast-route-differs':
    'Das Kontrastmittel ist als {route} dokumentiert; punktiert oder sondiert wurde „{entered}“.',
  'finding.clinical.outcome-differs': 'Das Gesamtergebnis ist {overall}; {place} sagt „{other}“.',
  'finding.clinical.complication-unsaid':
    '„{text}“ berichtet von einer Komplikation; es ist keine Komplikation dokumentiert.',
  'finding.clinical.fluoroscopy-longer':
    'Die Durchleuchtung von {time} ist länger als der Eingriff, der {lasted} dauerte.',
  'finding.clinical.radiation-unsaid':
    'Röntgenstrahlung wurde eingesetzt ({place}), und keine Strahlendosis ist dokumentiert.',
  'finding.clinical.haemoglobin-fall':
    'Das Hämoglobin fiel von {from} auf {to}, um {fall} g/L, und keine Blutung ist dokumentiert.',
  'finding.clinical.measurement-differs': '{what} ist hier {value} und in {place} {other}.',
  'finding.clinical.specimen-differs': 'Proben: {specimens}; die Ereignisse sagen {events} ({place}).',
  'finding.clinical.closure-differs':
    'Der Zugang „{site}“ ist als verschlossen mit „{closure}“ dokumentiert; kein Produkt oder Ereignis dort belegt das.',
  'finding.clinical.kind-differs': '„{text}“ passt nicht zu dem, was sonst dokumentiert ist: {other}.',
  'finding.clinical.level-differs':
    '„{text}“ nennt eine andere Höhe oder ein anderes Segment als „{other}“ ({place}).',
  'finding.clinical.sex-differs': '„{text}“ passt nicht zum dokumentierten Geschlecht, {sex}.',
  'finding.clinical.age-differs':
    '„{text}“ passt nicht zum Geburtsdatum {birth}, das am Tag des Eingriffs {age} Jahre ergibt.',
  'finding.clinical.pregnancy-differs':
    'Die Frage nach einer Schwangerschaft ist mit „{answer}“ beantwortet; „{text}“ widerspricht dem.',
  'finding.clinical.entered-twice':
    '{what} ist zweimal mit gleichen Werten und gleicher Zeit eingetragen, zuerst in {first}.',
  'finding.clinical.aftercare-device-out':
    '„{task}“ betrifft {device}; es liegt nach dem Eingriff nicht im Körper.',
  'finding.tally.left-differs': '„left“ sagt {left}; das Ereignis um {time} sagt {event}.',
  'finding.tally.not-deployed': '{device} verbleibt, und kein Ereignis setzt es im Körper frei.',
  'finding.tally.not-locked': '{device} verbleibt, und kein Ereignis verriegelt die Schlaufe.',
  'finding.tally.other-side':
    'Um {time} läuft {device} über {wire:acc} und durch {sheath:acc}; der Draht liegt in {other}.',
  'finding.tally.not-filled':
    '{device} hält durch seinen Ballon und verbleibt, aber kein Ereignis füllt den Ballon.',
  'finding.tally.flushed-before':
    '{device} bleibt liegen; die einzige Spülung, um {time}, liegt vor dem Einbringen.',
};
