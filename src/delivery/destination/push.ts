import { type ExactObject, exactText, listAt, textAt } from '../answer/exact-json.js';
import { issuesOf } from '../answer/issues.js';
import { compareResource } from '../held/compare.js';
import { type Held, search } from '../held/lookup.js';
import { mapAtOnce } from '../http/at-once.js';
import type { Reply } from '../http/fhir-client.js';
import type { Criteria } from '../request/submission.js';
import type { Session } from './session.js';

/** Types of a package that are sent to a server, those that others lean on first. */
export const PUSHED_TYPES = [
  'CodeSystem',
  'NamingSystem',
  'ValueSet',
  'StructureDefinition',
  'SearchParameter',
] as const;

/** One conformance resource and what a server has of it. */
export interface PlannedPush {
  readonly resource: ExactObject;
  readonly type: string;
  /** Canonical address; of a NamingSystem the one that it is about. */
  readonly address: string;
  /** `several`: under one address. `not-told`: the server does not answer. */
  readonly now: 'new' | 'same' | 'differs' | 'several' | 'not-told';
  readonly held?: Held;
}

/** What came of one conformance resource. */
export interface Pushed {
  readonly type: string;
  readonly address: string;
  readonly result: 'there' | 'created' | 'updated' | 'refused' | 'several' | 'not-told';
  /** What the server said, where it refused. */
  readonly said?: string;
}

/** What a server has of conformance resources, with reads only. */
export function planPush(resources: readonly ExactObject[], session: Session): Promise<PlannedPush[]> {
  return mapAtOnce(resources, resource => plan(resource, session));
}

/** Without what it claims of itself, which is no part of what others are checked by and may be unknown there. */
function bare({ meta: _, ...resource }: ExactObject): ExactObject {
  return resource;
}

async function plan(given: ExactObject, { client }: Session): Promise<PlannedPush> {
  const resource = bare(given);
  const type = textAt(resource, 'resourceType') ?? '';
  const criteria = criteriaFor(resource, type);
  const base = { resource, type, address: criteria.value };
  const found = await search(client, type, criteria);
  if (found === 'no-answer') return { ...base, now: 'not-told' };
  // A server may answer a parameter that it does not know with everything it has.
  const [held, second] = found.filter(one => criteriaFor(one.resource, type).value === criteria.value);
  if (second) return { ...base, now: 'several' };
  if (!held) return { ...base, now: 'new' };
  const differs = compareResource(resource, held.resource, new Map()).some(({ kind }) => kind !== 'added');
  return { ...base, now: differs ? 'differs' : 'same', held };
}

function criteriaFor(resource: ExactObject, type: string): Criteria {
  return type === 'NamingSystem'
    ? { parameter: 'value', value: textAt(listAt(resource, 'uniqueId')[0], 'value') ?? '' }
    : { parameter: 'url', value: textAt(resource, 'url') ?? '' };
}

/** Writes what is new or differs, one after the other; what is there as it should be is left alone. */
export async function push(
  planned: readonly PlannedPush[],
  session: Session,
  onPushed: (pushed: Pushed) => void = () => undefined,
): Promise<Pushed[]> {
  const all: Pushed[] = [];
  for (const one of planned) {
    const pushed = await write(one, session);
    all.push(pushed);
    onPushed(pushed);
  }
  return all;
}

async function write({ resource, type, address, now, held }: PlannedPush, session: Session): Promise<Pushed> {
  const { client } = session;
  const of = { type, address };
  if (now === 'same') return { ...of, result: 'there' };
  if (now === 'several' || now === 'not-told') return { ...of, result: now };
  if (now === 'new') {
    const { parameter, value } = criteriaFor(resource, type);
    const { id: _, ...created } = resource;
    // Two who push at once make one.
    const headers = { 'if-none-exist': `${parameter}=${encodeURIComponent(value)}` };
    return told(of, 'created', await client.write('POST', type, exactText(created), headers, false));
  }
  const text = exactText({ ...resource, id: held?.id ?? '' });
  const headers = held?.version === undefined ? {} : { 'if-match': `W/"${held.version}"` };
  return told(of, 'updated', await client.write('PUT', `${type}/${held?.id ?? ''}`, text, headers, false));
}

function told(of: Pick<Pushed, 'type' | 'address'>, done: 'created' | 'updated', reply: Reply): Pushed {
  const { exchange, body } = reply;
  if (exchange.kind === 'fault') return { ...of, result: 'not-told', said: exchange.reason };
  // A conditional create that found one made none.
  if (done === 'created' && exchange.status === 200) return { ...of, result: 'there' };
  if (exchange.status === 201 || exchange.status === 200) return { ...of, result: done };
  const said = issuesOf(body, [])
    .filter(({ severity }) => severity === 'error' || severity === 'fatal')
    .map(({ text }) => text);
  return { ...of, result: 'refused', said: [`HTTP ${exchange.status}`, ...said.slice(0, 3)].join(': ') };
}
