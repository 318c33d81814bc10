import type { MessageKey } from '../../../message.js';

/** Perfiles y la entrega. */
export const deliveryProfilesFindings = {
  'finding.delivery.scopes-missing':
    'El token para {destination} no permite lo que sus casos necesitan: no se concedió {missing}.',
  'remedy.delivery.scopes-missing':
    'Pida que esos permisos (scopes) se registren allí para el cliente y solicítelos con auth.scope, o quite este ajuste.',
  'finding.delivery.profiles-to-push': '{destination} rechaza perfiles que no conoce: {profiles}.',
  'remedy.delivery.profiles-to-push':
    'Cárguelos con: {command}. O ponga `profiles: {setting}` en el destino, que deja de declararlos.',
  'finding.delivery.profiles-to-ask-for':
    '{destination} rechaza perfiles que no conoce, y no nos deja cargarlos: {profiles}.',
  'remedy.delivery.profiles-to-ask-for':
    'Ponga `profiles: {setting}` en el destino, que deja de declararlos. O pida a sus administradores que carguen los paquetes FHIR {packages} (`casetally packages write FILE` escribe los nuestros), y ejecute doctor de nuevo.',
  'finding.delivery.profiles-refused':
    '{destination} conoce los perfiles que declara un ejemplo, y aun así lo rechaza: {said}',
  'remedy.delivery.profiles-refused': 'Ponga `profiles: {setting}` en el destino, que deja de declararlos.',
  'finding.delivery.profiles-not-told':
    '{destination} no valida sin guardar ($validate): si admite los perfiles que declara un caso se verá al enviar uno.',
  'remedy.delivery.profiles-not-told': 'Si rechaza un caso por ellos, ponga `profiles: none` en el destino.',
  'finding.delivery.receiver-profile':
    '{destination} pide a los recursos {type} más de lo que tienen {count}, según {profile}: {what}',
  'remedy.delivery.receiver-profile':
    'Pregunte a sus administradores si rechazan un recurso así. Lo que quepa en un registro o en la configuración del centro, escríbalo allí; un tipo de recurso que no se quiere se excluye con `groups`.',
  'finding.delivery.package-missing':
    'Falta el paquete {package}, que necesita {neededBy}: lo que pide {destination} se comprueba en parte.',
  'remedy.delivery.package-missing':
    'Obtenga su .tgz y ejecute `casetally packages add FILE`; los paquetes se buscan en {cache}.',
  'finding.delivery.package-unreadable':
    'Lo que pide {destination} no se comprueba, porque uno de sus paquetes no se puede leer: {why}',
  'remedy.delivery.package-unreadable':
    'Indique un .tgz o una carpeta con package.json en `packages` del destino, o name#version.',
  'finding.delivery.profile-missing':
    'El perfil {profile} de {destination} no está en ninguno de los paquetes disponibles y no se comprueba.',
  'remedy.delivery.profile-missing':
    'Indique en `packages` del destino el paquete que lo contiene, o corrija su dirección.',
  'finding.delivery.reserved-host':
    'Lo que va a {destination} lleva direcciones que nadie puede poseer: {addresses}.',
  'remedy.delivery.reserved-host':
    'Escriba las direcciones de su hospital: `fhir.canonical` para perfiles y sistemas de códigos (o `profiles: none` en el destino), `identifiers` y `coding` en la configuración del centro, y los sistemas de numeración en el registro.',
  'finding.delivery.example-refused':
    '{destination} rechaza un ejemplo sean cuales sean los perfiles que declara: {said}',
  'remedy.delivery.example-refused':
    'Muéstreselo a sus administradores: reglas propias prohíben lo que FHIR permite.',
} as const satisfies Partial<Record<MessageKey, string>>;
