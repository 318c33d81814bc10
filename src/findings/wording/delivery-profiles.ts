import { define } from '../define.js';

const R4_PROFILES = 'FHIR R4, Profiling, claims of profiles: https://hl7.org/fhir/R4/resource.html#Meta';

/** Wording of what a destination must allow and know. */
export const deliveryProfilesWording = define({
  'delivery.scopes-missing': {
    severity: 'error',
    message: 'The token for {destination} does not allow what its cases need: {missing} was not granted.',
    remedy:
      'Have these scopes registered for the client there, and ask for them with auth.scope, or leave it out.',
    basis: 'SMART App Launch, scopes: https://hl7.org/fhir/smart-app-launch/scopes-and-launch-context.html',
  },
  'delivery.profiles-to-push': {
    severity: 'warning',
    message: '{destination} refuses profiles that it does not know: {profiles}.',
    remedy:
      'Load them with: {command}. Or set `profiles: {setting}` for the destination, which leaves their claims out.',
    basis: R4_PROFILES,
  },
  'delivery.profiles-to-ask-for': {
    severity: 'warning',
    message:
      '{destination} refuses profiles that it does not know, and does not let us load them: {profiles}.',
    remedy:
      'Set `profiles: {setting}` for the destination, which leaves their claims out. Or ask its administrators to load the FHIR packages {packages} (`casetally packages write FILE` writes ours), then run doctor again.',
    basis: R4_PROFILES,
  },
  'delivery.profiles-refused': {
    severity: 'warning',
    message: '{destination} knows the profiles that an example claims, and refuses it all the same: {said}',
    remedy: 'Set `profiles: {setting}` for the destination, which leaves these claims out.',
    basis: R4_PROFILES,
  },
  'delivery.profiles-not-told': {
    severity: 'information',
    message:
      '{destination} does not validate without storing ($validate): whether it takes the profiles that a case claims shows when one is sent.',
    remedy: 'Should it refuse a case for them, set `profiles: none` for the destination.',
    basis: R4_PROFILES,
  },
  'delivery.receiver-profile': {
    severity: 'warning',
    message: '{destination} asks more of {type} than {count} have, by {profile}: {what}',
    remedy:
      'Ask its administrators whether they refuse such a resource. What a record or the site configuration can hold, write there; a kind of resource that is not wanted is left out with `groups`.',
    basis: R4_PROFILES,
  },
  'delivery.package-missing': {
    severity: 'warning',
    message:
      'The package {package}, which {neededBy} needs, is not there: what {destination} asks is checked in part.',
    remedy: 'Get its .tgz and run `casetally packages add FILE`; packages are looked for in {cache}.',
    basis: 'FHIR package specification: https://hl7.org/fhir/packages.html',
  },
  'delivery.package-unreadable': {
    severity: 'warning',
    message: 'What {destination} asks is not checked, since one of its packages cannot be read: {why}',
    remedy: 'Name a .tgz or a folder with a package.json in `packages` of the destination, or name#version.',
    basis: 'FHIR package specification: https://hl7.org/fhir/packages.html',
  },
  'delivery.profile-missing': {
    severity: 'warning',
    message: 'The profile {profile} of {destination} is in none of the packages at hand and is not checked.',
    remedy: 'Name the package that holds it in `packages` of the destination, or correct its address.',
    basis: R4_PROFILES,
  },
  'delivery.reserved-host': {
    severity: 'warning',
    message: 'What goes to {destination} names addresses that nobody can own: {addresses}.',
    remedy:
      'Write the addresses of your hospital: `fhir.canonical` for profiles and code systems (or `profiles: none` for the destination), `identifiers` and `coding` in the site configuration, and the numbering systems in the record.',
    basis: 'RFC 2606, reserved names: https://www.rfc-editor.org/rfc/rfc2606',
  },
  'delivery.example-refused': {
    severity: 'warning',
    message: '{destination} refuses an example whatever profiles it claims: {said}',
    remedy: 'Show this to its administrators: rules of their own forbid what FHIR allows.',
    basis: R4_PROFILES,
  },
});
