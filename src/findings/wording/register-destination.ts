import { COMMON_PRACTICE, define } from '../define.js';

/** Wording of the findings about what later cases change at destinations. */
export const registerDestinationWording = define({
  'register.not-ours': {
    severity: 'warning',
    message:
      '{destination}: {address}, made for case {case}, is now about another patient or device. Nothing of that case was changed there.',
    remedy:
      'Find out at {destination} who changed it. Once it is right, run casetally register update-destinations.',
    basis: COMMON_PRACTICE,
  },
  'register.several-there': {
    severity: 'warning',
    message:
      '{destination} has several resources under one identifier of case {case}: {addresses}. None of them was changed.',
    remedy: 'Have the duplicates removed at {destination}, then run casetally register update-destinations.',
    basis: COMMON_PRACTICE,
  },
  'register.gone': {
    severity: 'warning',
    message: '{destination} no longer has {address} of case {case}. It was not created again.',
    remedy:
      'Where it was deleted by mistake, have it restored at {destination}, then run casetally register update-destinations --to {destination} --all.',
    basis: COMMON_PRACTICE,
  },
  'register.no-versions': {
    severity: 'warning',
    message:
      '{destination} gives no version for {address} (case {case}), so a change made by somebody else in the meantime would be overwritten. It was not updated.',
    remedy:
      'Have it updated by hand at {destination}, or accept that risk with casetally register update-destinations --without-versions.',
    basis: COMMON_PRACTICE,
  },
  'register.update-refused': {
    severity: 'warning',
    message: '{destination} refused to let {address} of case {case} be read or updated (HTTP {status}).',
    remedy:
      'Ask the administrators of {destination} whether this sender may search, read and update it, then run casetally register update-destinations.',
    basis: COMMON_PRACTICE,
  },
  'register.not-whole': {
    severity: 'warning',
    message:
      '{destination} returned only a part of {address} (case {case}). It was not updated, since the rest would be lost.',
    remedy:
      'Ask the administrators of {destination} to let this sender read whole resources, then run casetally register update-destinations.',
    basis: COMMON_PRACTICE,
  },
});
