import type { Printer } from '../print/printer.js';

/** Allergies that this case showed, one text each: `iopamidol: urticaria (mild, not yet confirmed)`. */
export function foundAllergies(p: Printer): string[] {
  return p.assessment.allergies.map(({ to, signs, severity, certainty }) => {
    const label = to ? p.drug(to.text) : p.say('allergies.substanceUnknown');
    const detail = [
      ...(severity ? [p.say(`severity.${severity}`)] : []),
      p.say(`certainty.${certainty}`),
    ].join(', ');
    if (signs.length === 0) return p.say('complication.short', { what: label, detail });
    const what = p.say('complication.short', { what: signs.join(', '), detail });
    return p.say('field', { label, value: what });
  });
}

/** What every reader is told before all else; empty where there is nothing. */
export function foundNotice(p: Printer, key: 'notice.allergyFound' | 'patientNotice.allergyFound'): string[] {
  const list = foundAllergies(p);
  return list.length === 0 ? [] : [p.say(key, { list: list.join('; ') })];
}

/** What the patient is told of allergies: those of the case first. */
export function patientAllergies(p: Printer): string[] {
  const before = p.record.before?.allergies;
  const found = p.assessment.allergies.map(({ to }) =>
    to ? p.drug(to.text) : p.say('allergies.substanceUnknown'),
  );
  const list = (names: readonly string[]) => ({ list: p.list(names) });
  const known = () => {
    if (before === undefined) return p.say('patientKnow.allergiesNotSaid');
    if (before === 'none')
      return p.say(found.length > 0 ? 'patientKnow.noAllergiesBefore' : 'patientKnow.noAllergies');
    return p.say('patientKnow.allergies', list(before.map(({ to }) => p.drug(to.text))));
  };
  return [...(found.length > 0 ? [p.say('patientKnow.allergiesFound', list(found))] : []), known()];
}
