import type { FhirRouter, HttpMethod } from '@medplum/fhir-router';
import type { OperationOutcome } from '@medplum/fhirtypes';
import { validated } from './check.js';
import { checkCriteria, type Sandbox } from './criteria.js';
import { type Interaction, Refusal, type Reply, refuse, stored } from './reply.js';
import { create, resourceOf, type Setting, update } from './write.js';

const METHODS: readonly string[] = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];

/**
 * Carries out one interaction, alone or as a Bundle entry. Reading, searching, history, patch and delete are
 * the library's; create and update are ours, because the library lacks their checks and status codes.
 *
 * @throws Refusal with the status and OperationOutcome to answer.
 */
export async function interact(
  sandbox: Sandbox,
  router: FhirRouter,
  interaction: Interaction,
  setting: Setting = {},
): Promise<Reply> {
  const { method, url } = interaction;
  if (!isMethod(method)) throw refuse(405, 'not-supported', `${method} is not supported`);
  const { type, rest, criteria } = parseAddress(sandbox, url);
  const [id, ...more] = rest;
  if (method === 'POST' && id === '$validate' && sandbox.profiles)
    return { status: 200, body: validated(sandbox, resourceOf(interaction.body, type)) };
  if (sandbox.locked?.has(type) && method !== 'GET')
    throw refuse(403, 'forbidden', `${type} is loaded by the administrators of this server`);
  if (method === 'POST' && id === undefined) return create(sandbox, type, interaction, setting);
  if (method === 'PUT' && more.length === 0) {
    const target = id === undefined ? { type, criteria: criteria ?? '' } : { type, id };
    return update(sandbox, target, interaction, setting);
  }
  if (id === undefined && criteria !== undefined) checkCriteria(sandbox.packages, type, criteria);
  if (id !== undefined && id !== '_search' && more.length === 0) refuseWhenGone(sandbox, type, id);
  return viaRouter(sandbox, router, method, interaction, setting);
}

function isMethod(method: string): method is HttpMethod {
  return METHODS.includes(method);
}

function parseAddress(
  { packages }: Sandbox,
  url: string,
): { type: string; rest: string[]; criteria?: string } {
  const [path = '', criteria] = url.split(/\?(.*)/s);
  const [type = '', ...rest] = path.replace(/^\/+|\/+$/g, '').split('/');
  if (!packages.core.isResourceType(type))
    throw refuse(404, 'not-supported', `'${type}' is not a resource type of R4`);
  return { type, rest, ...(criteria !== undefined && { criteria }) };
}

function refuseWhenGone({ repository }: Sandbox, type: string, id: string): void {
  if (repository.wasDeleted(type, id)) throw refuse(410, 'deleted', `${type} ${id} was deleted`);
}

async function viaRouter(
  { packages, repository }: Sandbox,
  router: FhirRouter,
  method: HttpMethod,
  { url, body }: Interaction,
  { at }: Setting,
): Promise<Reply> {
  const request = { method, url, pathname: '', body, params: {}, query: {}, headers: {} };
  const [outcome, resource] = await router.handleRequest(request, repository);
  const status = packages.core.getStatus(outcome);
  if (!packages.core.isOk(outcome)) throw new Refusal(status, placed(outcome, at));
  if (method === 'DELETE') return { status: 204 };
  if (resource === undefined) return { status };
  return resource.meta?.versionId ? stored(status, resource) : { status, body: resource };
}

function placed(outcome: OperationOutcome, at: string | undefined): OperationOutcome {
  const issue = outcome.issue.map(item => ({ ...item, ...(at && !item.expression && { expression: [at] }) }));
  return { resourceType: 'OperationOutcome', issue };
}
