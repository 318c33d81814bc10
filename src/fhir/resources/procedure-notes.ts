import type { Annotation } from 'fhir/r4.js';
import { say } from '../../findings/say.js';
import { died } from '../../record/died.js';
import type { MappingContext } from '../context.js';
import { deviceName, partKind } from '../events.js';
import { present } from '../tidy.js';
import { personRef } from './people.js';

/**
 * What the record says of the case as a whole and R4 has no element for: each a note in words. A 'none' that was said
 * is among them, since leaving it out would read like 'not recorded'.
 */
export function caseNotes(context: MappingContext): Annotation[] {
  const { record } = context;
  const said = (value: unknown, text: string) => value === 'none' && text;
  const lines = present(
    record.case.procedure && `Kind of case: ${record.case.kind}`,
    record.case.urgency && `Urgency: ${record.case.urgency}`,
    record.case.session !== undefined && `Session ${record.case.session}`,
    record.case.accession !== undefined &&
      context.options.identifiers.accession === undefined &&
      `Accession number ${record.case.accession}`,
    record.indication.question && `Question: ${record.indication.question}`,
    record.before?.consent?.note && `Consent: ${record.before.consent.note}`,
    said(record.drugs, 'No drugs given'),
    said(record.contrast, 'No contrast given'),
    said(record.complications, 'No complication'),
    said(record.specimens, 'No specimen taken'),
    said(record.left, 'Nothing left in the patient'),
    ...(record.images ?? []).map(image =>
      present(
        'Images',
        image.description,
        `study ${image.study}`,
        image.series && `series ${image.series}`,
        image.at && `at ${image.at.iso}`,
        image.file && `file ${image.file}`,
      ).join(', '),
    ),
    ...missing(context),
    ...unaccounted(context),
    died(record) && `The patient died${record.outcome?.died ? `: ${record.outcome.died.iso}` : ''}`,
    record.outcome?.coroner !== undefined &&
      `Reported to the coroner: ${record.outcome.coroner ? 'yes' : 'no'}`,
    record.outcome?.followedBy && `What follows: ${FOLLOWS[record.outcome.followedBy]}`,
  );
  const accepted = (record.acknowledged ?? []).map(item => ({
    authorReference: personRef(context, item.by),
    text: present(
      `Finding ${item.finding}`,
      item.about && `about ${item.about}`,
      `accepted: ${item.reason}`,
    ).join(' '),
  }));
  return [...lines.map(text => ({ text })), ...accepted];
}

const FOLLOWS = {
  surgery: 'open surgery',
  transfer: 'transfer to another hospital',
  repeat: 'another attempt',
} as const;

/** What was searched for and not found, with all that was done. */
function missing(context: MappingContext): string[] {
  return (context.record.missing ?? []).map(({ device, part, count, ...done }) => {
    const person = context.record.team.find(member => member.key === done.by);
    const name = deviceName(context, device);
    return present(
      `Cannot be found: ${part === undefined ? name : `${partKind(context, device, part)} of ${name}`}${
        count === undefined || count === 1 ? '' : ` (${count})`
      }`,
      `searched: ${done.searched}`,
      done.by && `by ${person?.name ?? done.by}`,
      done.at && `search ended ${done.at.iso}`,
      `imaging: ${done.imaging}`,
      done.result && `imaging shows: ${done.result}`,
      `told: ${done.told}`,
    ).join('; ');
  });
}

function unaccounted(context: MappingContext): string[] {
  return context.assessment.tally.entries
    .filter(row => row.state === 'unaccounted')
    .map(row => `Unaccounted: ${say(row.name)}${row.count === 1 ? '' : ` (${row.count})`}, ${say(row.why)}`);
}
