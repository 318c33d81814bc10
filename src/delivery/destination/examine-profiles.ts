import { type Finding, finding } from '../../findings/finding.js';
import { type ExactObject, exactText, listAt, objectAt, textAt } from '../answer/exact-json.js';
import { issuesOf } from '../answer/issues.js';
import { search } from '../held/lookup.js';
import { type Reply, succeeded } from '../http/fhir-client.js';
import type { Capabilities } from './capability.js';
import { type Destination, PROFILE_CLAIMS } from './destination.js';
import type { Check } from './examine.js';
import type { Session } from './session.js';

/** An invented resource as a case sends it, to try a destination with. */
export interface ProfileProbe {
  /** With the claims that each setting lets it have. */
  readonly claiming: (which: Destination['profiles']) => ExactObject;
  /** The package that a profile comes from, as `name#version`, and whether it is ours. */
  readonly packageOf: (profile: string) => { readonly name: string; readonly own: boolean };
}

interface Tried {
  readonly kind: 'taken' | 'refused' | 'not-told';
  /** What the server said against it, or why it said nothing. */
  readonly said: string;
}

/**
 * Has a destination validate one resource without storing it (`$validate`), and says which setting or which packages make
 * it take what a case claims.
 */
export async function examineProfiles(
  session: Session,
  probe: ProfileProbe,
  capabilities: Capabilities | undefined,
): Promise<{ readonly check: Check; readonly findings: readonly Finding[] }> {
  const { destination } = session;
  const first = await validate(session, probe.claiming(destination.profiles));
  const check = (verdict: Check['verdict'], detail: string): Check => ({ name: 'profiles', verdict, detail });
  if (first.kind === 'not-told')
    return {
      check: check('not-told', first.said),
      findings: [finding('delivery.profiles-not-told', 'destination', { destination: destination.name })],
    };
  if (first.kind === 'taken')
    return { check: check('pass', `profiles: ${destination.profiles} is taken`), findings: [] };
  const detail = `profiles: ${destination.profiles} is refused: ${first.said}`;
  const weaker = PROFILE_CLAIMS.slice(PROFILE_CLAIMS.indexOf(destination.profiles) + 1);
  for (const which of weaker) {
    if ((await validate(session, probe.claiming(which))).kind !== 'taken') continue;
    return {
      check: check('fail', detail),
      findings: [await proposal(session, probe, which, first.said, capabilities)],
    };
  }
  const params = { destination: destination.name, said: first.said };
  return {
    check: check('fail', detail),
    findings: [finding('delivery.example-refused', 'destination', params)],
  };
}

/** What to do where a destination takes a resource with fewer claims. */
async function proposal(
  session: Session,
  probe: ProfileProbe,
  which: Destination['profiles'],
  said: string,
  capabilities: Capabilities | undefined,
): Promise<Finding> {
  const { name: destination, profiles: now } = session.destination;
  const dropped = claimsOf(probe.claiming(now)).filter(one => !claimsOf(probe.claiming(which)).includes(one));
  const missing: string[] = [];
  for (const profile of dropped) if (!(await isThere(session, profile))) missing.push(profile);
  if (missing.length === 0)
    return finding('delivery.profiles-refused', 'destination', { destination, said, setting: which });
  const packages = [
    ...new Map(missing.map(one => [probe.packageOf(one).name, probe.packageOf(one)])).values(),
  ];
  const others = packages.filter(({ own }) => !own).map(({ name }) => ` --package ${name}`);
  const params = {
    destination,
    profiles: missing.join(', '),
    setting: which,
    packages: packages.map(({ name }) => name).join(', '),
    command: `casetally packages push --to ${destination}${others.join('')}`,
  };
  const writes = capabilities?.types.get('StructureDefinition')?.interactions.has('create') === true;
  return finding(
    writes ? 'delivery.profiles-to-push' : 'delivery.profiles-to-ask-for',
    'destination',
    params,
  );
}

function claimsOf(resource: ExactObject): string[] {
  return listAt(objectAt(resource, 'meta'), 'profile').filter(one => typeof one === 'string');
}

async function isThere({ client }: Session, profile: string): Promise<boolean> {
  const found = await search(client, 'StructureDefinition', { parameter: 'url', value: profile });
  return found !== 'no-answer' && found.some(({ resource }) => textAt(resource, 'url') === profile);
}

async function validate({ client }: Session, resource: ExactObject): Promise<Tried> {
  const type = textAt(resource, 'resourceType') ?? '';
  return readTried(await client.write('POST', `${type}/$validate`, exactText(resource), {}, false));
}

/** Refused where an error is told of the resource, whatever the status; an answer without an outcome tells nothing. */
function readTried(reply: Reply): Tried {
  const { exchange, body } = reply;
  if (exchange.kind === 'fault') return { kind: 'not-told', said: exchange.reason };
  const { status } = exchange;
  const issues = issuesOf(body, []);
  const judged = succeeded(reply) || status === 400 || status === 412 || status === 422;
  if (!judged || issues.length === 0) return { kind: 'not-told', said: `no $validate: HTTP ${status}` };
  const against = issues.filter(({ severity }) => severity === 'error' || severity === 'fatal');
  // A server that does not have the operation says so in an outcome as well.
  if (!succeeded(reply) && against.every(({ code }) => code === 'not-supported' || code === 'not-found'))
    return { kind: 'not-told', said: `no $validate: HTTP ${status}` };
  const [worst] = against;
  return worst ? { kind: 'refused', said: worst.text.slice(0, 300) } : { kind: 'taken', said: '' };
}
