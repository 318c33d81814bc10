import type { WarningTerms, WarningWords } from '../warnings.js';

const messages: WarningWords = {
  'size.wire-too-big': 'Um {time}: {wire} ist {wireSize} dick; {device} nimmt {lumen} auf.',
  'size.wire-undersized':
    'Um {time} läuft {device}, gemacht für {lumen}, über {wire} mit {wireSize}: wenig Führung.',
  'size.wire-system':
    'Um {time} läuft {device}, gemacht für Drähte von {lumen}, über {wire} mit {wireSize}: ein anderes Drahtsystem.',
  'size.device-too-big': 'Um {time}: {device} ist {size} dick; {host} nimmt {lumen} auf.',
  'size.wire-too-short':
    'Um {time}, {device} über {wire}: nötig sind {needed}, der Draht hat {length}, {short} zu kurz, um seine Lage zu halten.',
  'size.sheath-trapped':
    'Um {time} wird {sheath} entfernt, während {device} darin bleibt; die Schleuse ist nicht teilbar und kommt nicht über den Ansatz.',
  'size.wire-occupied': 'Um {time} läuft {device} über {wire}, während {other} noch darauf ist.',
  'size.over-pressure': '{device} wird um {time} auf {pressure} aufgedehnt; Nenndruck {rated}.',
  'size.deeper-than-long':
    'Um {time} ist {device} mit {depth} im Körper dokumentiert; die Länge beträgt {length}.',
  'size.oversize': '{device} öffnete sich auf {open} in {target}, daneben {diameter} weit: {percent} davon.',
  'size.undersize': '{device} öffnete sich auf {open} in {target}, daneben {diameter} weit: {percent} davon.',
  'size.stent-short':
    'Mit {device} liegen {covered} Stent in {target}, die Läsion ist {length} lang: sie ist nicht abgedeckt.',
  'size.balloon-short':
    'Mit {device} wurden {covered} Ballon in {target} aufgedehnt, die Läsion ist {length} lang.',
  'size.ureteric-short': '{device} ist {length} lang; der Harnleiter maß {measured}.',
  'size.ureteric-long': '{device} ist {length} lang; der Harnleiter maß {measured}, über 4 cm weniger.',
  'size.shaft-short':
    'Der Schaft von {device} ist {shaft} lang; der Weg vom Zugang bis {target} beträgt {way}, {short} mehr.',
  'device.kind-unknown':
    '„{kind}“ ({device}) ist keine hier bekannte Art von Produkt, und keine Familie ist angegeben.',
  'acknowledged.error':
    'Das Protokoll nimmt „{code}“ an, das ein Fehler ist: nur Warnungen können angenommen werden.',
  'tally.removed-inflated': '{device} wird um {time} entfernt, und das Entleeren ist nicht dokumentiert.',
  'tally.removed-locked':
    '{device} wird um {time} entfernt, und die Schlinge war verriegelt; das Entriegeln ist nicht dokumentiert.',
  'tally.thread-undeclared':
    '{device} um {time}: unter den Teilen ist kein Haltefaden angegeben, daher wird keiner verfolgt.',
  'tally.damaged':
    '{device} wurde um {time} beschädigt entfernt; das Protokoll sagt nicht, dass es vollständig war.',
  'tally.left-count-missing':
    '{what}: nach den Schritten bleiben {number}, und die Angabe des Verbleibenden nennt keine Zahl.',
  'tally.no-condition':
    '{what} bleibt auf Zeit, und nichts sagt, wann oder unter welcher Bedingung es entfernt wird.',
  'tally.retained': '{what} verbleibt unbeabsichtigt im Körper.',
  'tally.carried-case':
    '{device} wurde in einem früheren Fall eingelegt, und das Protokoll sagt nicht, in welchem.',
  'clinical.dose-unit-slip':
    'Kerma-Flächenprodukt {product} und Luftkerma {kerma} passen nicht zusammen: sie ergeben ein mittleres Feld von {area} cm², außerhalb von {least} bis {most} cm².',
  'clinical.dose-rate':
    '{what} {value} in {time} Durchleuchtung ist {rate}, außerhalb des erwarteten Bereichs.',
  'clinical.dose-scan-length':
    'Dosis-Längen-Produkt {product} und CT-Dosisindex {index} passen nicht zusammen: sie ergeben eine gescannte Länge von {length} cm, außerhalb von {least} bis {most} cm.',
  'clinical.dose-substantial': '{what} {value} erreichte die Schwelle der erheblichen Dosis von {limit}.',
  'clinical.skin-review-missing':
    'Die Schwelle der erheblichen Dosis wurde erreicht, und keine Nachsorge im Protokoll betrifft die Haut; eine wird vorgeschlagen.',
  'clinical.pregnant': 'Strahlung wurde angewendet, und eine Schwangerschaft ist dokumentiert.',
  'clinical.pregnancy-not-asked':
    'Strahlung wurde angewendet, und keine Antwort auf die Frage nach einer Schwangerschaft ist dokumentiert.',
  'clinical.egfr-contrast':
    'Intravasales Kontrastmittel wurde bei einer geschätzten Filtrationsrate von {egfr} mL/min/1,73 m² gegeben, unter {limit}.',
  'clinical.contrast-volume':
    '{volume} mL intravasales Kontrastmittel liegen über dem Grenzwert von {limit} mL.',
  'clinical.value-implausible': '{what} von {value} kann nicht stimmen: möglich ist {range}.',
  'clinical.allergy-cross':
    '„{given}“ wurde gegeben, und eine Allergie gegen „{allergy}“ ist dokumentiert; eine Kreuzreaktion ist {likelihood}.',
  'clinical.device-allergy':
    '„{device}“ enthält {substance}, und eine Allergie gegen „{allergy}“ ist dokumentiert.',
  'clinical.local-anaesthetic-sum':
    'Lokalanästhetika zusammen ({drugs}) erreichen {percent} % ihrer Grenzen.',
  'clinical.allergy-given': '„{given}“ wurde gegeben, und eine Allergie gegen „{allergy}“ ist dokumentiert.',
  'clinical.lab-missing': '{lab} vor diesem Eingriff (Blutungsrisiko {risk}) ist nicht dokumentiert.',
  'clinical.lab-old': '{lab} ist {days} Tage alt; der Grenzwert beträgt {limit} Tage.',
  'clinical.lab-threshold':
    '{lab} {value} liegt jenseits des Grenzwerts von {limit} für einen Eingriff mit Blutungsrisiko {risk}.',
  'clinical.hold-short':
    'Die letzte Gabe von „{drug}“ war {hours} h vor dem Zugang; die Tabelle der Pausierungszeiten verlangt {limit} h.',
  'clinical.hold-unknown': 'Die letzte Gabe von „{drug}“ ist nicht dokumentiert.',
  'clinical.prophylaxis-late':
    '„{drug}“ zur Prophylaxe wurde erst um {time} gegeben, nach dem Zugang um {access}.',
  'clinical.prophylaxis-early':
    '„{drug}“ zur Prophylaxe wurde {minutes} min vor dem Zugang gegeben; der Grenzwert beträgt {limit} min.',
  'clinical.local-anaesthetic': '„{drug}“ {dose} mg sind {perKg} mg/kg, über {limit} mg/kg.',
  'clinical.fasting': '{what}: zuletzt {hours} h vor der Sedierung; der Grenzwert beträgt {limit} h.',
  'clinical.grade-differs':
    '„{what}“ hat den Grad {written} ({scale}), und die dokumentierten Folgen ergeben {computed}.',
  'clinical.grade-missing': 'Die Komplikation „{what}“ hat keinen Grad.',
  'clinical.success-differs':
    'Der dokumentierte technische Erfolg an „{target}“ passt nicht zu dem, was sonst dokumentiert ist.',
  'clinical.due-uncountable': '„{written}“ lässt sich nicht in einen Tag umrechnen.',
  'clinical.kidney-injury':
    'Das Kreatinin nach dem Eingriff erfüllt die Kriterien einer akuten Nierenschädigung, Stadium {stage}.',
  'clinical.prophylaxis-redose':
    'Keine weitere Gabe von „{drug}“ zur Prophylaxe ist für {span} nach {time} dokumentiert; das Intervall beträgt {limit} h.',
  'clinical.narrowing-differs':
    'Die Einengung an „{target}“ ist mit {written} angegeben und ergibt aus den Durchmessern {computed}%, mehr als {limit} Punkte auseinander.',
  'clinical.session-without-earlier':
    'Dies ist Sitzung {session}, und das Protokoll nennt keinen früheren Versuch.',
  'clinical.criterion-value':
    'Die Bedingung zu „{measure}“ ist unvollständig: so wie sie steht, kann niemand danach handeln.',
  'clinical.capped-without-criteria':
    '„{device}“ bleibt verschlossen oder abgeklemmt, und nichts sagt, was über das Öffnen oder Entfernen entscheidet.',
  'clinical.later-than-policy':
    '„{what}“ ist für {planned} geplant; die Vorgabe der Einrichtung erlaubt es bis {allowed}.',
};

const terms: WarningTerms = {
  low: 'niedrig',
  high: 'hoch',
  Food: 'Mahlzeit',
  'Clear fluids': 'Klare Flüssigkeit',
  'Air kerma': 'Luftkerma',
  'Kerma-area product': 'Kerma-Flächenprodukt',
  'Peak skin dose': 'Maximale Hautdosis',
  'Fluoroscopy time': 'Durchleuchtungszeit',
  creatinine: 'Kreatinin',
  platelets: 'Thrombozyten',
  fibrinogen: 'Fibrinogen',
  likely: 'wahrscheinlich',
  possible: 'möglich',
  rare: 'selten',
  uncommon: 'ungewöhnlich',
  unlikely: 'unwahrscheinlich',
  'possible (by side chain)': 'möglich (je nach Seitenkette)',
  'possible (same side chain)': 'möglich (gleiche Seitenkette)',
  'possible (about 16 %, same side chain)': 'möglich (etwa 16 %, gleiche Seitenkette)',
  'unlikely (about 2 %)': 'unwahrscheinlich (etwa 2 %)',
  'rare (under 1 %)': 'selten (unter 1 %)',
};

/** Warnungen, die ein Protokoll annehmen kann. */
export const warnings = { messages, terms };
