import { type ExactObject, listAt, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import { finding } from '../../../findings/finding.js';
import type { GivenValue, Typed } from '../../../intake/contribution.js';
import { drugsIn } from '../../../trade/drugs/table.js';
import { codeAt, codings, conceptAt, isVoid, timeAt, wordsOf } from './resource.js';
import type { Taken } from './taken.js';

/** Statements that there is no allergy, or none that is known. Source: SNOMED CT, from memory. */
const NO_ALLERGY = new Set(['716186003', '409137002', '428607008', '429625007', '428197003']);
const SEVERITIES = ['mild', 'moderate', 'severe'] as const;

/**
 * Allergies that hold. That there is none is proposed where somebody said so, and left open where nothing is found. A
 * resolved or refuted one is passed over.
 */
export function allergyValues(allergies: readonly ExactObject[]): Taken {
  const holding = allergies.filter(
    one =>
      !isVoid(one) &&
      codeAt(one, 'verificationStatus') !== 'refuted' &&
      !['inactive', 'resolved'].includes(codeAt(one, 'clinicalStatus') ?? ''),
  );
  const denies = (one: ExactObject) =>
    codings(objectAt(one, 'code')).some(({ code }) => NO_ALLERGY.has(code));
  const named = holding.filter(one => !denies(one));
  const values = named.flatMap((one): GivenValue[] => {
    const reactions = listAt(one, 'reaction');
    const to =
      conceptAt(one, 'code') ??
      reactions.flatMap(reaction => wordsOf(objectAt(reaction, 'substance')) ?? [])[0];
    if (to === undefined) return [];
    const signs = reactions.flatMap(reaction =>
      listAt(reaction, 'manifestation').flatMap(sign => wordsOf(sign) ?? []),
    );
    const severity = SEVERITIES.findLast(grade =>
      reactions.some(reaction => textAt(reaction, 'severity') === grade),
    );
    const value: Typed = {
      to,
      ...(signs.length > 0 && { reaction: [...new Set(signs)].join(', ') }),
      ...(severity && { severity }),
    };
    return [{ path: ['before', 'allergies'], value, as: 'add' }];
  });
  if (values.length === 0 && named.length === 0 && holding.length > 0)
    return { values: [{ path: ['before', 'allergies'], value: 'none', as: 'propose' }] };
  const unnamed = named.length - values.length;
  return {
    values,
    ...(unnamed > 0 && {
      findings: [
        finding('intake.not-taken', 'before.allergies', {
          what: 'AllergyIntolerance',
          count: `${unnamed}`,
          why: 'no substance in words',
        }),
      ],
    }),
  };
}

/** Conditions that are active and were not refuted. */
export function conditionValues(conditions: readonly ExactObject[]): Taken {
  const active = conditions.filter(
    one =>
      !isVoid(one) &&
      codeAt(one, 'verificationStatus') !== 'refuted' &&
      ['active', 'recurrence', 'relapse'].includes(codeAt(one, 'clinicalStatus') ?? ''),
  );
  const seen = new Set<string>();
  return {
    values: active.flatMap((one): GivenValue[] => {
      const what = conceptAt(one, 'code');
      if (what === undefined || seen.has(what.toLowerCase())) return [];
      seen.add(what.toLowerCase());
      const since = timeAt(one, 'onsetDateTime')?.slice(0, 10);
      const value = { what, status: 'active', ...(since !== undefined && { since }) };
      return [{ path: ['before', 'conditions'], value, as: 'add' }];
    }),
  };
}

/**
 * Drugs against clotting that are prescribed or said to be taken. When the last dose was, neither says: it is left open.
 */
export function drugValues(medications: readonly ExactObject[]): Taken {
  const seen = new Set<string>();
  return {
    values: medications.flatMap((one): GivenValue[] => {
      const drug =
        conceptAt(one, 'medicationCodeableConcept') ??
        textAt(objectAt(one, 'medicationReference'), 'display');
      if (isVoid(one) || textAt(one, 'status') !== 'active' || drug === undefined) return [];
      const rows = drugsIn(drug).filter(({ families }) =>
        families.some(family => ['anticoagulant', 'antiplatelet', 'heparin'].includes(family)),
      );
      const key = rows.map(({ name }) => name).join('+');
      if (rows.length === 0 || seen.has(key)) return [];
      seen.add(key);
      const [dosage] = [...listAt(one, 'dosageInstruction'), ...listAt(one, 'dosage')];
      const dose = textAt(dosage, 'text')?.replace(/\s+/g, ' ').trim();
      const value = { drug, ...(dose && { dose }) };
      return [{ path: ['before', 'anticoagulants'], value, as: 'add' }];
    }),
  };
}
