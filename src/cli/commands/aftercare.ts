import type { AftercareItem } from '../../clinical/aftercare/aftercare.js';
import { aftercareCalendar, dateWords, itemLines } from '../../clinical/aftercare/calendar.js';
import { turnOf } from '../../clinical/aftercare/order.js';
import { stops } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { CAUTION } from '../about.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { findingsText, ownLines } from '../terminal/findings.js';
import { exitOf, openCase } from './open-case.js';
import { openSite } from './open-site.js';

interface AftercareFlags {
  readonly format: 'ics' | 'text' | 'json';
  readonly site?: string;
  /** As the format json. */
  readonly json?: boolean;
}

/** Prints what is to be done after a case: for reading, for a calendar, or for a program. Errors go to standard error. */
export async function aftercare(file: string, flags: AftercareFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(file, site);
  const { record, assessment, findings } = opened;
  const errors = findings.filter(stops);
  // Half a record may lack half the dates, and a calendar does not show what it lacks.
  if (!record || !assessment) {
    const verdict = 'there is no aftercare plan: the record must be readable as a whole first';
    output.err(findingsText(file, findings, output, { verdict, ...ownLines(output, opened.bytes) }));
    return exitOf(opened);
  }
  output.err(findingsText(file, errors, output, ownLines(output, opened.bytes)));
  const nameOf = (key: string) => assessment.devices.get(key)?.name ?? key;
  const items = assessment.aftercare;
  if (flags.json || flags.format === 'json') output.out(jsonText(items));
  else if (flags.format === 'text') output.out(planText(items, nameOf));
  else
    output.out(
      aftercareCalendar(items, {
        title: `Aftercare: ${record.case.kind}, case ${record.case.id}`,
        caseId: `${site.site.namespace}/${record.case.id}`,
        stampedAt: stampOf(record),
        deviceName: nameOf,
        caution: CAUTION,
      }),
    );
  return exitOf(opened);
}

/** When the plan was made: signed, else the end of the case, else its day. */
function stampOf({ report, case: head }: CaseRecord): number {
  return report.signedAt?.epoch ?? head.ended?.epoch ?? Date.parse(`${head.date}T00:00:00Z`);
}

/** In the order of urgency that the plan has. */
function planText(items: readonly AftercareItem[], nameOf: (key: string) => string): string {
  if (items.length === 0) return 'No aftercare is recorded.\n';
  const blocks = items.map(item => {
    const device = item.device === undefined ? '' : ` (${nameOf(item.device)})`;
    const head = `${turnText(item)}  ${item.urgent ? 'URGENT: ' : ''}${item.what}${device}\n`;
    const lines = itemLines(item, '').filter(line => line !== '');
    return `${head}${lines.map(line => `    ${line}\n`).join('')}`;
  });
  return `${blocks.join('\n')}\nDates are advice to be confirmed. ${CAUTION}\n`;
}

/** `Friday 15 March 2024, 02:30`, or that there is no date. */
export function turnText(item: AftercareItem): string {
  const turn = turnOf(item);
  return turn ? dateWords(turn.time ?? turn.day) : 'no date';
}
