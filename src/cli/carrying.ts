import type { Outbox } from '../delivery/outbox/outbox.js';
import { openDestinations } from '../pipeline/destinations.js';
import type { OpenedSite } from '../pipeline/open-case.js';
import { type CarriedOut, carryOut } from '../pipeline/register/destination/carry-out.js';
import type { Owed } from '../register/store/owed.js';
import { counted, type Output } from './output.js';
import { processDeps, secretsFrom } from './process.js';
import { filled } from './terminal/fill.js';
import { findingsText } from './terminal/findings.js';
import { reasonText } from './terminal/item.js';

/** What is to be carried out, and how. */
export interface Carrying {
  readonly owed: Owed;
  readonly site: OpenedSite;
  readonly data: string | undefined;
  readonly outbox?: Pick<Outbox, 'list' | 'gate'> | undefined;
  /** Only these cases. */
  readonly cases?: readonly string[] | undefined;
  /** Only this destination. */
  readonly to?: string | undefined;
  readonly withoutVersions?: boolean | undefined;
  readonly stop?: AbortSignal | undefined;
}

/** Changes at destinations what later cases say of what earlier ones left there, as far as that is due. */
export async function carryOutNow(
  { owed, site, data, outbox, cases, to, withoutVersions, stop }: Carrying,
  output: Output,
): Promise<readonly CarriedOut[]> {
  const open = await owed.list();
  const now = processDeps(data).clock();
  const wanted = open.filter(one => !one.held && one.dueAt <= now && (!cases || cases.includes(one.case)));
  const names = [...new Set(wanted.map(({ destination }) => destination))].filter(
    name => to === undefined || name === to,
  );
  if (names.length === 0) return [];
  const { targets, findings } = await openDestinations(
    site.site,
    names,
    secretsFrom(site.folder),
    processDeps(data).clock,
  );
  output.err(findingsText('register', findings, output));
  return carryOut(
    {
      ...processDeps(data),
      ...{ owed, site: site.site, targets },
      ...(outbox && { outbox }),
      ...(withoutVersions && { withoutVersions }),
      ...(stop && { stop }),
    },
    cases,
  );
}

/** What was changed, in a line a case, and then what there is to say of it; nothing where there is neither. */
export function printCarried(done: readonly CarriedOut[], output: Output): void {
  for (const one of done) {
    const { case: name, destination, updated, came } = one;
    if (updated.length > 0) {
      const what = changesOf(updated).join(', ');
      output.out(filled(`${destination}: ${name} brought up to date: ${what}.`, output.columns, '', '  '));
    }
    if (came === 'later' && one.reason !== 'on-its-way') {
      const why = reasonText({ lastReason: one.reason ?? 'unavailable' });
      const then = 'It is tried again by the worker, or with casetally register update-destinations.';
      output.err(
        filled(
          `${destination}: ${name} not brought up to date yet: ${why}. ${then}`,
          output.columns,
          '',
          '  ',
        ),
      );
    }
  }
  output.err(
    findingsText(
      'register',
      done.flatMap(({ findings }) => findings),
      output,
    ),
  );
}

/** `Device inactive`, `2 Task completed`. */
function changesOf(updated: CarriedOut['updated']): string[] {
  const kinds = updated.map(({ address, status }) => `${address.split('/')[0]} ${status}`);
  return [...new Set(kinds)].map(kind => {
    const count = kinds.filter(one => one === kind).length;
    return count === 1 ? kind : `${count} ${kind}`;
  });
}

/** `2 cases at records`, for what is left. */
export const leftText = (open: readonly { readonly destination: string }[]): string =>
  [...new Set(open.map(({ destination }) => destination))]
    .map(name => {
      const here = open.filter(({ destination }) => destination === name).length;
      return `${counted(here, 'case', 'cases')} at ${name}`;
    })
    .join(', ');
