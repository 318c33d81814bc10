import type { MessageKey } from '../../../message.js';

/** Was ein Ziel erlauben und kennen muss. */
export const deliveryProfilesFindings = {
  'finding.delivery.scopes-missing':
    'Das Token für {destination} erlaubt nicht, was die Fälle brauchen: {missing} wurde nicht gewährt.',
  'remedy.delivery.scopes-missing':
    'Lassen Sie diese Scopes dort für den Client eintragen, und fordern Sie sie mit auth.scope an, oder lassen Sie es weg.',
  'finding.delivery.profiles-to-push': '{destination} weist unbekannte Profile ab: {profiles}.',
  'remedy.delivery.profiles-to-push':
    'Laden Sie sie mit: {command}. Oder setzen Sie `profiles: {setting}` für das Ziel, dann werden sie nicht angegeben.',
  'finding.delivery.profiles-to-ask-for':
    '{destination} weist unbekannte Profile ab und lässt sie uns nicht laden: {profiles}.',
  'remedy.delivery.profiles-to-ask-for':
    'Setzen Sie `profiles: {setting}` für das Ziel, dann werden sie nicht angegeben. Oder bitten Sie die Verwaltung des Servers, die FHIR-Pakete {packages} zu laden (`casetally packages write FILE` schreibt unsere), und führen Sie doctor erneut aus.',
  'finding.delivery.profiles-refused':
    '{destination} kennt die Profile, die ein Beispiel angibt, und weist es trotzdem ab: {said}',
  'remedy.delivery.profiles-refused':
    'Setzen Sie `profiles: {setting}` für das Ziel, dann werden sie nicht angegeben.',
  'finding.delivery.profiles-not-told':
    '{destination} prüft nicht ohne zu speichern ($validate): ob es die Profile eines Falls annimmt, zeigt sich beim Senden.',
  'remedy.delivery.profiles-not-told':
    'Weist es deswegen einen Fall ab, setzen Sie `profiles: none` für das Ziel.',
  'finding.delivery.receiver-profile':
    '{destination} verlangt von {type} mehr, als vorhanden ist ({count}), nach {profile}: {what}',
  'remedy.delivery.receiver-profile':
    'Fragen Sie die Verwaltung des Servers, ob solch eine Ressource abgewiesen wird. Was Protokoll oder Konfiguration der Einrichtung fassen, tragen Sie dort ein; eine unerwünschte Art von Ressource lassen Sie mit `groups` weg.',
  'finding.delivery.package-missing':
    'Das Paket {package}, gebraucht von {neededBy}, ist nicht da: was {destination} verlangt, wird nur zum Teil geprüft.',
  'remedy.delivery.package-missing':
    'Besorgen Sie seine .tgz, und führen Sie `casetally packages add FILE` aus; gesucht wird in {cache}.',
  'finding.delivery.package-unreadable':
    'Was {destination} verlangt, wird nicht geprüft, da eines der Pakete nicht lesbar ist: {why}',
  'remedy.delivery.package-unreadable':
    'Nennen Sie in `packages` des Ziels eine .tgz oder einen Ordner mit einer package.json, oder name#version.',
  'finding.delivery.profile-missing':
    'Das Profil {profile} von {destination} ist in keinem vorliegenden Paket und wird nicht geprüft.',
  'remedy.delivery.profile-missing':
    'Nennen Sie in `packages` des Ziels das Paket, das es enthält, oder berichtigen Sie die Adresse.',
  'finding.delivery.reserved-host':
    'Was an {destination} geht, nennt Adressen, die niemandem gehören können: {addresses}.',
  'remedy.delivery.reserved-host':
    'Schreiben Sie die Adressen Ihres Krankenhauses: `fhir.canonical` für Profile und Codesysteme (oder `profiles: none` für das Ziel), `identifiers` und `coding` in der Konfiguration der Einrichtung, und die Nummernsysteme im Protokoll.',
  'finding.delivery.example-refused':
    '{destination} weist ein Beispiel ab, gleich welche Profile es angibt: {said}',
  'remedy.delivery.example-refused':
    'Zeigen Sie dies der Verwaltung des Servers: eigene Regeln verbieten dort, was FHIR erlaubt.',
} satisfies Partial<Record<MessageKey, string>>;
