import type { Specimen } from 'fhir/r4.js';
import { entriesOf } from '../../record/entries.js';
import { printQuantity } from '../../record/quantity.js';
import { specimenConcept } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { simpleQuantityOf } from '../quantity.js';
import { present, some } from '../tidy.js';
import { siteConcept } from './body-sites.js';

/** Samples that were taken. */
export function addSpecimens(context: MappingContext): void {
  const { record } = context;
  const specimens = entriesOf(record.specimens);
  for (const [index, item] of specimens.entries()) {
    const role = `specimen/${item.key ?? index + 1}`;
    const target = item.from === undefined ? undefined : record.targets?.[item.from];
    const resource: Specimen = {
      resourceType: 'Specimen',
      identifier: [context.identifier(role), ...(item.identifier ? [item.identifier] : [])],
      type: specimenConcept(context.options, item.what),
      subject: context.ref('patient'),
      collection: {
        collectedDateTime: item.at?.iso ?? context.times.start ?? record.case.date,
        quantity: item.volume && simpleQuantityOf(item.volume),
        bodySite: target && siteConcept(context, target.what, target.side),
      },
      container: item.container === undefined ? undefined : [{ description: item.container }],
      note: some(
        present(
          item.count === undefined ? undefined : `Number: ${item.count}`,
          item.volume?.comparator && `Volume: ${printQuantity(item.volume)}`,
          item.appearance && `Appearance: ${item.appearance}`,
          item.sentFor && `Sent for: ${item.sentFor}`,
        ).map(text => ({ text })),
      ),
    };
    context.add(role, resource, {
      from: `specimens[${index}]`,
      summary: present(item.what.text, item.appearance, item.sentFor && `sent for ${item.sentFor}`),
      section: 'specimens',
    });
  }
}
