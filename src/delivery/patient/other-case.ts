import { listAt, objectAt, textAt } from '../answer/exact-json.js';
import { isPassing, type Looking } from '../held/looking.js';
import { numbersOf, shareNumber } from '../request/expected.js';
import type { Submission } from '../request/submission.js';
import { type Deviation, shown } from './compare.js';
import type { SentCase } from './sent-case.js';

/**
 * Whether another case was done on the same order: a procedure based on it with a number of our kind that is not of this
 * case. Near and not a contradiction, for one order may be carried out in two sessions. Withdrawn ones do not count.
 *
 * @param order id of the order at the destination.
 */
export async function otherCase(
  { entries }: Submission,
  { procedure }: SentCase,
  order: string,
  look: Looking,
): Promise<Deviation[]> {
  const address = `ServiceRequest/${order}`;
  const found = await look.search('Procedure', { parameter: 'based-on', value: address });
  if ('failed' in found) {
    // What is not told now is asked for again with the next case; the order itself was found.
    return isPassing(found.failed)
      ? []
      : [{ field: 'order.case', agreement: 'not-compared', sent: '', held: '' }];
  }
  const ours = numbersOf(procedure.resource);
  const systems = new Set(ours.map(({ system }) => system));
  const own = entries.filter(({ type }) => type === 'Procedure');
  for (const { resource } of found.held) {
    const based = listAt(resource, 'basedOn').some(one =>
      new RegExp(`(?:^|/)${address.replaceAll('.', '\\.')}(?:/_history/.*)?$`).test(
        textAt(objectAt({ one }, 'one'), 'reference') ?? '',
      ),
    );
    // A server may answer a parameter that it does not know with everything it has.
    if (!based || resource['partOf'] !== undefined || textAt(resource, 'status') === 'entered-in-error')
      continue;
    if (own.some(entry => shareNumber(entry.resource, resource))) continue;
    const theirs = numbersOf(resource).filter(({ system }) => systems.has(system));
    const last = theirs.at(-1);
    if (last)
      return [
        {
          field: 'order.case',
          agreement: 'near',
          sent: shown(ours.at(-1)?.value ?? ''),
          held: shown(last.value),
        },
      ];
  }
  return [];
}
