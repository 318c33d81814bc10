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
      'Set `profiles: {setting}` for the destination, which leaves their claims out. Or ask its administrators to load the FHIR packages {packages} (`npm run pack:profiles` writes ours), then run doctor again.',
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
  'delivery.example-refused': {
    severity: 'warning',
    message: '{destination} refuses an example whatever profiles it claims: {said}',
    remedy: 'Show this to its administrators: rules of their own forbid what FHIR allows.',
    basis: R4_PROFILES,
  },
});
