import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';

/**
 * The case itself, where an earlier one is named: what the earlier case left open would stay open, and this one would be
 * counted twice.
 * @param system of the case numbers of this site; absent: not checked
 */
export function checkOwnCase(record: CaseRecord, system: string | undefined): Finding[] {
  const { before, devices, radiation, case: head } = record;
  const named = [
    ...Object.entries(devices ?? {}).map(([key, { carried }]) => ({
      path: `devices.${key}.carried.case`,
      id: carried?.case,
    })),
    ...(before?.earlierAttempts ?? []).map((one, i) => ({
      path: `before.earlierAttempts[${i}].case`,
      id: one.case,
    })),
    ...(radiation === undefined || radiation === 'none' ? [] : (radiation.earlier ?? [])).map((one, i) => ({
      path: `radiation.earlier[${i}].case`,
      id: one.case,
    })),
  ];
  return named
    .filter(({ id }) => id !== undefined && id.system === system && id.value === head.id)
    .map(({ path }) => finding('clinical.own-case', path, { case: head.id }));
}
