import type { Annotation } from 'fhir/r4.js';
import { say } from '../../findings/say.js';
import type { MappingContext } from '../context.js';
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
    ...unaccounted(context),
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

function unaccounted(context: MappingContext): string[] {
  return context.assessment.tally.entries
    .filter(row => row.state === 'unaccounted')
    .map(row => `Unaccounted: ${say(row.name)}${row.count === 1 ? '' : ` (${row.count})`}, ${say(row.why)}`);
}
