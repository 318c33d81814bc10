import type { CaseRecord } from '../../record/schema/record.js';

/** When a report counts as made: its signature, else the end or the start of the case, else its day. Never a clock. */
export function createdAt({ report, case: head }: CaseRecord): Date {
  const moment = report.signedAt ?? head.ended ?? head.started;
  return new Date(moment ? moment.epoch : `${head.date}T00:00:00Z`);
}
