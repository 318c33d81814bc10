import type { ReportedKey } from '../reported.js';
import { agreementWarnings } from './warnings-agreement.js';
import { courseWarnings } from './warnings-course.js';
import { leftWarnings } from './warnings-left.js';
import { missingWarnings } from './warnings-missing.js';

/** Warnungen, die ein Protokoll annehmen kann. */
export const warnings = {
  ...agreementWarnings,
  ...courseWarnings,
  ...leftWarnings,
  ...missingWarnings,
  'finding.size.wire-too-big': 'Um {time}: {wire} ist {wireSize} dick; {device} nimmt {lumen} auf.',
  'finding.size.wire-undersized':
    'Um {time} läuft {device}, gemacht für {lumen}, über {wire:acc} mit {wireSize}: wenig Führung.',
  'finding.size.wire-system':
    'Um {time} läuft {device}, gemacht für Drähte von {lumen}, über {wire:acc} mit {wireSize}: ein anderes Drahtsystem.',
  'finding.size.device-too-big': 'Um {time}: {device} ist {size} dick; {host} nimmt {lumen} auf.',
  'finding.size.inner-short':
    'Um {time} läuft {device}, {length} lang, durch {host:acc} mit {hostLength} Länge: die Spitze kann am Ende nicht austreten.',
  'finding.size.wire-too-short':
    'Um {time}: {device} {way} über {wire:acc}; {sum} ergibt {needed}, der Draht hat {length}, {short} zu kurz, um seine Lage zu halten.',
  'finding.size.sheath-trapped':
    'Um {time} wird {sheath} entfernt, während {device} darin bleibt; die Schleuse ist nicht teilbar und kommt nicht über den Ansatz.',
  'finding.size.wire-occupied': 'Um {time} läuft {device} über {wire:acc}, während {other} noch darauf ist.',
  'finding.size.over-pressure': '{device} wird um {time} auf {pressure} gefüllt; Nennberstdruck {rated}.',
  'finding.size.deeper-than-long':
    'Um {time} ist {device} mit {depth} im Körper dokumentiert; die Länge beträgt {length}.',
  'finding.size.oversize':
    '{device} öffnete sich auf {open} in {target}, daneben {diameter} weit: {percent} davon.',
  'finding.size.undersize':
    '{device} öffnete sich auf {open} in {target}, daneben {diameter} weit: {percent} davon.',
  'finding.size.stent-short':
    'Mit {device:dat} liegen {covered} Stent in {target}, die Läsion ist {length} lang: sie ist nicht abgedeckt.',
  'finding.size.balloon-short':
    'Mit {device:dat} wurden {covered} Ballon in {target} aufgedehnt, die Läsion ist {length} lang.',
  'finding.size.ureteric-short': '{device} ist {length} lang; der Harnleiter maß {measured}.',
  'finding.size.ureteric-long':
    '{device} ist {length} lang; der Harnleiter maß {measured}, über 4 cm weniger.',
  'finding.size.shaft-short':
    'Der Schaft {device:gen} ist {shaft} lang; der Weg vom Zugang bis {target} beträgt {way}, {short} mehr.',
  'finding.device.kind-unknown':
    '„{kind}“ ({device}) ist keine hier bekannte Art von Produkt, und keine Familie ist angegeben.',
  'finding.acknowledged.error':
    'Das Protokoll nimmt „{code}“{about} an, das ein Fehler ist: nur Warnungen können angenommen werden.',
  'finding.tally.removed-inflated':
    '{device} wird um {time} entfernt, und das Entleeren ist nicht dokumentiert.',
  'finding.tally.removed-locked':
    '{device} wird um {time} entfernt, und die Schlinge war verriegelt; das Entriegeln ist nicht dokumentiert.',
  'finding.tally.thread-undeclared':
    '{device} {done} um {time}: unter den Teilen ist kein Haltefaden angegeben, daher wird keiner verfolgt.',
  'finding.tally.damaged':
    '{device} wurde um {time} beschädigt entfernt; das Protokoll sagt nicht, dass es vollständig war.',
  'finding.tally.left-count-missing':
    '{what}: nach den Schritten bleiben {number}, und die Angabe des Verbleibenden nennt keine Zahl.',
  'finding.tally.no-condition':
    '{what} bleibt auf Zeit, und nichts sagt, wann oder unter welcher Bedingung es entfernt wird.',
  'finding.tally.retained': '{what} verbleibt unbeabsichtigt im Körper.',
  'finding.tally.carried-case':
    '{device} wurde in einem früheren Fall eingelegt, und das Protokoll sagt nicht, in welchem.',
  'finding.clinical.dose-unit-slip':
    'Kerma-Flächenprodukt {product} und Luftkerma {kerma} passen nicht zusammen: sie ergeben ein mittleres Feld von {area} cm², außerhalb von {least} bis {most} cm². {slip}',
  'finding.clinical.dose-rate': '{what} {value} in {time} Durchleuchtung ist {rate}, außerhalb von {range}.',
  'finding.clinical.dose-scan-length':
    'Dosis-Längen-Produkt {product} und CT-Dosisindex {index} ergeben eine gescannte Länge von {length} cm, außerhalb von {least} bis {most} cm. {slip}',
  'finding.clinical.dose-substantial':
    '{what} {value} erreichte die Schwelle der erheblichen Dosis von {limit}.',
  'finding.clinical.skin-review-missing':
    'Die Schwelle der erheblichen Dosis wurde erreicht, und keine Nachsorge im Protokoll betrifft die Haut; eine wird vorgeschlagen.',
  'finding.clinical.pregnant': 'Strahlung wurde angewendet, und eine Schwangerschaft ist dokumentiert.',
  'finding.clinical.pregnancy-not-asked':
    'Strahlung wurde angewendet, und keine Antwort auf die Frage nach einer Schwangerschaft ist dokumentiert.',
  'finding.clinical.egfr-contrast':
    'Intravasales Kontrastmittel wurde bei einer geschätzten Filtrationsrate von {egfr} mL/min/1,73 m² gegeben, unter {limit}.',
  'finding.clinical.contrast-volume':
    '{volume} mL intravasales Kontrastmittel liegen über dem Grenzwert von {limit} mL ({rule}).',
  'finding.clinical.allergy-given':
    '„{given}“ wurde gegeben, und eine Allergie gegen „{allergy}“ ist dokumentiert.',
  'finding.clinical.lab-missing': '{lab} vor diesem Eingriff (Blutungsrisiko {risk}) ist nicht dokumentiert.',
  'finding.clinical.lab-old': '{lab} ist {days} Tage alt; der Grenzwert beträgt {limit} Tage.',
  'finding.clinical.lab-threshold':
    '{lab} {value} liegt jenseits des Grenzwerts von {limit} für einen Eingriff mit Blutungsrisiko {risk}.',
  'finding.clinical.hold-short':
    'Die letzte Gabe von „{drug}“ war {hours} h vor dem Zugang; verlangt ist eine Pause von {limit} h.',
  'finding.clinical.hold-unknown': 'Die letzte Gabe von „{drug}“ ist nicht dokumentiert.',
  'finding.clinical.prophylaxis-late':
    '„{drug}“ zur Prophylaxe wurde erst um {time} gegeben, nach dem Zugang um {access}.',
  'finding.clinical.prophylaxis-early':
    '„{drug}“ zur Prophylaxe wurde {minutes} min vor dem Zugang gegeben; der Grenzwert beträgt {limit} min.',
  'finding.clinical.local-anaesthetic': '{what}',
  'finding.clinical.fasting': '{what}: zuletzt {hours} h vor der Sedierung; der Grenzwert beträgt {limit} h.',
  'finding.clinical.grade-differs':
    '„{what}“ hat den Grad {written} ({scale}), und die dokumentierten Folgen ergeben {computed}.',
  'finding.clinical.grade-missing': 'Die Komplikation „{what}“ hat keinen Grad.',
  'finding.clinical.success-differs':
    'Der technische Erfolg an „{target}“ ist dokumentiert als: {written}; dagegen spricht: {why}.',
  'finding.clinical.due-uncountable':
    '„{written}“ lässt sich nicht in einen Tag oder eine Uhrzeit umrechnen.',
  'finding.clinical.kidney-injury':
    'Das Kreatinin nach dem Eingriff erfüllt die Kriterien einer akuten Nierenschädigung, Stadium {stage}.',
  'finding.clinical.prophylaxis-redose':
    'Keine weitere Gabe von „{drug}“ zur Prophylaxe ist für {span} nach {time} dokumentiert; das Intervall beträgt {limit} h.',
  'finding.clinical.narrowing-differs':
    'Die Einengung an „{target}“ ist mit {written} angegeben und ergibt aus den Durchmessern {computed}%, mehr als {limit} Punkte auseinander.',
  'finding.clinical.session-without-earlier':
    'Dies ist Sitzung {session}, und das Protokoll nennt keinen früheren Versuch.',
  'finding.clinical.criterion-value':
    'Die Bedingung „{measure} {is}“ {wanted}: so wie sie steht, kann niemand danach handeln.',
  'finding.clinical.capped-without-criteria':
    '„{device}“ bleibt verschlossen oder abgeklemmt, und nichts sagt, was über das Öffnen oder Entfernen entscheidet.',
  'finding.clinical.later-than-policy':
    '„{what}“ ist für {planned} geplant; die Vorgabe der Einrichtung erlaubt es bis {allowed}.',
  'finding.clinical.allergy-cross':
    '„{given}“ wurde gegeben, und eine Allergie gegen „{allergy}“ ist dokumentiert; eine Kreuzreaktion ist {likelihood}.',
  'finding.clinical.allergy-device':
    '„{device}“: {substance}, und eine Allergie gegen „{allergy}“ ist dokumentiert.',
} satisfies Partial<Record<ReportedKey, string>>;
