import type { Resource } from '@medplum/fhirtypes';
import { checkContent, isResource, settleReferences } from './check.js';
import { matches, type Sandbox } from './criteria.js';
import { type Interaction, type Reply, refuse, stored } from './reply.js';

/** What a transaction knows beforehand about one of its entries. */
export interface Setting {
  /** The id that this transaction gave the resource, so that others could refer to it. */
  readonly assignedId?: string;
  /** 'Type/id' of everything that the transaction will write. */
  readonly coming?: ReadonlySet<string>;
  /** Where the resource stands in the Bundle, for expressions: `Bundle.entry[3].resource`. */
  readonly at?: string;
}

/** Create, conditional create: 201 when made, 200 with the one match, 412 on several. */
export async function create(
  sandbox: Sandbox,
  type: string,
  { body, ifNoneExist }: Interaction,
  setting: Setting = {},
): Promise<Reply> {
  const resource = resourceOf(body, type);
  if (ifNoneExist !== undefined) {
    const [first, second] = await matches(sandbox, type, ifNoneExist.replace(/^[A-Za-z]*\?/, ''));
    if (second)
      throw refuse(412, 'multiple-matches', `ifNoneExist matches several ${type} resources`, setting.at);
    if (first) return stored(200, first);
  }
  const id = setting.assignedId ?? sandbox.repository.generateId();
  return stored(201, await put(sandbox, resource, id, setting));
}

/** Update by id (also creates) and conditional update, both with If-Match. */
export async function update(
  sandbox: Sandbox,
  target: { type: string; id?: string; criteria?: string },
  { body, ifMatch }: Interaction,
  setting: Setting = {},
): Promise<Reply> {
  const resource = resourceOf(body, target.type);
  const id =
    target.id ?? (await idByCriteria(sandbox, target.type, target.criteria ?? '', resource, setting));
  if (resource.id !== undefined && resource.id !== id && target.id !== undefined) {
    throw refuse(400, 'invalid', `The resource has the id '${resource.id}', the address '${id}'`, setting.at);
  }
  const before = sandbox.repository.peek(target.type, id);
  if (ifMatch !== undefined) checkVersion(before, ifMatch, setting.at);
  return stored(before ? 200 : 201, await put(sandbox, resource, id, setting));
}

async function idByCriteria(
  sandbox: Sandbox,
  type: string,
  criteria: string,
  resource: Resource,
  setting: Setting,
): Promise<string> {
  const [first, second] = await matches(sandbox, type, criteria);
  if (second)
    throw refuse(412, 'multiple-matches', `The criteria match several ${type} resources`, setting.at);
  if (first?.id && resource.id !== undefined && resource.id !== first.id) {
    throw refuse(400, 'invalid', `The resource has another id than the one ${type} that matches`, setting.at);
  }
  return first?.id ?? setting.assignedId ?? resource.id ?? sandbox.repository.generateId();
}

function checkVersion(before: Resource | undefined, ifMatch: string, at: string | undefined): void {
  const wanted = /^(?:W\/)?"([^"]+)"$/.exec(ifMatch)?.[1];
  if (wanted === undefined) throw refuse(400, 'invalid', 'If-Match must look like W/"3"', at);
  if (before?.meta?.versionId !== wanted) {
    const now = before?.meta?.versionId ?? 'none';
    throw refuse(412, 'conflict', `If-Match asks for version ${wanted}; the current one is ${now}`, at);
  }
}

async function put(
  sandbox: Sandbox,
  incoming: Resource,
  id: string,
  { coming, at }: Setting,
): Promise<Resource> {
  const resource = { ...incoming, id };
  checkContent(sandbox, resource, at);
  await settleReferences(sandbox, resource, coming, at);
  const made = await sandbox.repository.createResource(resource);
  sandbox.digits.keep(incoming, made);
  return made;
}

/** What a request carries, of the type that its address says. */
export function resourceOf(body: unknown, type: string): Resource {
  if (!isResource(body)) throw refuse(400, 'structure', 'The body is not a FHIR resource');
  if (body.resourceType !== type) {
    throw refuse(400, 'invalid', `The address says ${type}, the resource is a ${body.resourceType}`);
  }
  return body;
}
