import type { SecretSource } from '../../delivery/auth/secrets.js';
import { openSession } from '../../delivery/destination/session.js';
import { CasetallyError } from '../../findings/errors.js';
import { stops } from '../../findings/finding.js';
import { patientNumbers } from '../../intake/about.js';
import { carriedOnce } from '../../intake/carried.js';
import { destinationsOf, openDestination } from '../../pipeline/destinations.js';
import { beginFrom, bringIn } from '../../pipeline/intake/bring-in.js';
import {
  earlierCaseContribution,
  type GivenNumber,
  type insideContribution,
} from '../../pipeline/intake/earlier.js';
import { askOrder } from '../../pipeline/intake/order/ask.js';
import { openBytes } from '../../pipeline/open-case.js';
import type { SendCaseDeps } from '../../pipeline/send-case.js';
import { treeIn } from '../../record/tree.js';
import { type Reply, refusal } from '../api/reply.js';
import { broughtReply, kitsWanted } from './brought.js';
import type { CasePorts } from './case-handlers.js';
import type { Wanted } from './case-job.js';

export interface BringPorts extends CasePorts {
  readonly process: SendCaseDeps['process'];
  readonly secrets: SecretSource;
  /** What the register has inside a patient; undefined where no number leads to one. */
  readonly inside: (numbers: readonly GivenNumber[], at: string) => ReturnType<typeof insideContribution>;
}

/**
 * POST /intake/begin and /intake/add: what an order at a destination, kits, earlier cases and the register give, in a new
 * record as `casetally new` makes it, or in the one that came, as `casetally add` does.
 */
export async function bringHandler(
  wanted: Extract<Wanted, { do: 'bring' }>,
  ports: BringPorts,
): Promise<Reply> {
  const { site, language } = ports;
  const now = new Date(ports.process.clock()).toISOString();
  const no = (text: string, findings: Parameters<typeof refusal>[3] = []) =>
    refusal(400, 'invalid', text, findings, {}, language);
  try {
    const kits = await kitsWanted(wanted.kits, ports);
    if ('status' in kits) return kits;
    const order =
      wanted.order === undefined ? undefined : await orderOf(wanted.order, wanted.from, ports, now);
    if (order && 'unusable' in order) return no('The destination cannot be asked.', order.unusable);
    const earlier = [];
    for (const text of wanted.earlier) {
      const opened = await openBytes(new TextEncoder().encode(text), site, Date.parse(now));
      const made = earlierCaseContribution(opened, site.site, now);
      if (!made) return no('An earlier case cannot be read.', opened.findings.filter(stops));
      earlier.push(made);
    }
    const sources = order?.contribution ? [...earlier, order.contribution] : earlier;
    const { into } = wanted;
    const asking = wanted.register
      ? [
          ...(typeof into === 'string' ? patientNumbers(treeIn(into)) : []),
          ...wanted.patient,
          ...sources.flatMap(({ about }) => about?.identifiers ?? []),
        ]
      : undefined;
    if (asking?.length === 0 && !order)
      return no(
        'The register is asked by a number of the patient: send "patient", or a record, an order or an earlier case that has one.',
      );
    const inside = asking && (await ports.inside(asking, now));
    const contributions = carriedOnce(inside ? [inside.contribution, ...sources] : sources);
    const given = { contributions, kits, findings: order?.findings ?? [] };
    const brought =
      typeof into === 'string'
        ? bringIn(into, given, site.site, now)
        : beginFrom(into, given, site.site, now);
    const answer = broughtReply(brought, ports, { unreached: order?.unreached ?? false });
    return inside ? { ...answer, about: [inside.person] } : answer;
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage') return no(error.message);
    throw error;
  }
}

async function orderOf(number: string, from: string | undefined, ports: BringPorts, now: string) {
  const { site } = ports.site;
  if (from !== undefined && !Object.hasOwn(site.destinations, from))
    throw new CasetallyError('usage', 'the site configuration has no destination of that name.');
  const [name = ''] = destinationsOf({ ...site, routes: [] }, undefined, from, '"from"');
  const { target, findings } = await openDestination(site, name, ports.secrets, ports.process.clock);
  if (!target) return { unusable: findings };
  const session = openSession(target.destination, { ...ports.process, ...target });
  return askOrder(session, { destination: target.destination.name, number, at: now });
}
