import type { SecretSource } from '../../delivery/auth/secrets.js';
import { openSession } from '../../delivery/destination/session.js';
import { CasetallyError } from '../../findings/errors.js';
import { carriedOnce } from '../../intake/carried.js';
import { destinationsOf, openDestination } from '../../pipeline/destinations.js';
import { beginFrom, mergedRows } from '../../pipeline/intake/bring-in.js';
import { kitsNamed } from '../../pipeline/intake/kits.js';
import { fetchOrder } from '../../pipeline/intake/order/fetch.js';
import { orderContribution } from '../../pipeline/intake/order/read.js';
import type { SendCaseDeps } from '../../pipeline/send-case.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';
import type { Wanted } from './case-job.js';

interface BeginPorts extends CasePorts {
  readonly process: SendCaseDeps['process'];
  readonly secrets: SecretSource;
}

/** POST /intake/begin: a new record from an order at a destination and from kits, as `casetally new` makes it. */
export async function beginHandler(
  wanted: Extract<Wanted, { do: 'begin' }>,
  ports: BeginPorts,
): Promise<Reply> {
  const { site, language } = ports;
  const now = new Date(ports.process.clock()).toISOString();
  const no = (text: string, findings: Parameters<typeof refusal>[3] = []) =>
    refusal(400, 'invalid', text, findings, {}, language);
  try {
    const files = await kitsNamed(wanted.kits, site);
    const broken = files.flatMap(({ kit, findings }) => (kit ? [] : findings));
    if (broken.length > 0) return no('A kit of the site cannot be read.', broken);
    const order =
      wanted.order === undefined ? undefined : await orderOf(wanted.order, wanted.from, ports, now);
    if (order && 'unusable' in order) return no('The destination cannot be asked.', order.unusable);
    const contributions = carriedOnce(order?.contribution ? [order.contribution] : []);
    const begun = beginFrom(
      { id: wanted.case, date: wanted.date },
      { contributions, kits: files.flatMap(({ kit }) => kit ?? []), findings: order?.findings ?? [] },
      site.site,
      now,
    );
    return reply(
      200,
      {
        ...(begun.text !== undefined && { record: begun.text }),
        ...{ ...mergedRows(begun.merged), unreached: order?.unreached ?? false, findings: begun.findings },
      },
      { language },
    );
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage') return no(error.message);
    throw error;
  }
}

async function orderOf(number: string, from: string | undefined, ports: BeginPorts, now: string) {
  const { site } = ports.site;
  if (from !== undefined && !Object.hasOwn(site.destinations, from))
    throw new CasetallyError('usage', 'the site configuration has no destination of that name.');
  const [name = ''] = destinationsOf({ ...site, routes: [] }, undefined, from, '"from"');
  const { target, findings } = await openDestination(site, name, ports.secrets, ports.process.clock);
  if (!target) return { unusable: findings };
  const session = openSession(target.destination, { ...ports.process, ...target });
  const { held, ...rest } = await fetchOrder(session, number.trim());
  const destination = target.destination.name;
  return {
    ...rest,
    ...(held && { contribution: orderContribution(held, { destination, number, at: now }) }),
  };
}
