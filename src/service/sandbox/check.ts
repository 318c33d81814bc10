import type { OperationOutcome, Resource } from '@medplum/fhirtypes';
import { matches, type Sandbox } from './criteria.js';
import { isConditional, isPlaceholder, literalTarget, referencesOf } from './references.js';
import { Refusal, refuse } from './reply.js';

/** True for anything with a resourceType; the check below looks further. */
export function isResource(value: unknown): value is Resource {
  return (
    typeof value === 'object' &&
    value !== null &&
    'resourceType' in value &&
    typeof value.resourceType === 'string'
  );
}

/**
 * Basic check of what is to be stored: known type, required elements, primitive types, no unknown elements
 * (the library's validator); bindings and profiles where the server was started to look at them.
 *
 * @throws Refusal 422 with one issue for each fault; `at` prefixes the expressions inside a Bundle.
 */
export function checkContent({ packages, profiles }: Sandbox, resource: Resource, at?: string): void {
  try {
    packages.core.validateResource(resource);
  } catch (error) {
    if (!(error instanceof packages.core.OperationOutcomeError)) throw error;
    const issue = error.outcome.issue.map(item => ({
      severity: 'error' as const,
      code: item.code,
      diagnostics: item.details?.text ?? item.diagnostics ?? 'not valid',
      ...(item.expression && { expression: item.expression.map(path => within(path, at)) }),
    }));
    throw new Refusal(422, { resourceType: 'OperationOutcome', issue });
  }
  const issue = profiles?.(resource) ?? [];
  if (issue.length === 0) return;
  const placed = issue.map(item => ({
    ...item,
    ...(item.expression && { expression: item.expression.map(path => within(path, at)) }),
  }));
  throw new Refusal(422, { resourceType: 'OperationOutcome', issue: placed });
}

/** What `$validate` answers: the same check, and nothing is stored. */
export function validated(sandbox: Sandbox, resource: Resource): OperationOutcome {
  try {
    checkContent(sandbox, resource);
  } catch (error) {
    if (error instanceof Refusal) return error.outcome;
    throw error;
  }
  const issue = [
    { severity: 'information' as const, code: 'informational' as const, diagnostics: 'No issues' },
  ];
  return { resourceType: 'OperationOutcome', issue };
}

/** `Procedure.status` at `Bundle.entry[3].resource` is `Bundle.entry[3].resource.status`. */
function within(path: string, at: string | undefined): string {
  return at ? path.replace(/^[A-Z]\w*/, at) : path;
}

/**
 * Resolves conditional references in place and refuses references that lead nowhere: placeholders left over
 * and literal targets that are neither stored nor in `coming` ('Type/id' that this transaction will write).
 */
export async function settleReferences(
  sandbox: Sandbox,
  resource: Resource,
  coming: ReadonlySet<string> = new Set(),
  at?: string,
): Promise<void> {
  for (const reference of referencesOf(resource)) {
    const place = within(reference.path, at);
    if (isConditional(reference.value)) {
      reference.replace(await resolveConditional(sandbox, reference.value, place));
      continue;
    }
    if (isPlaceholder(reference.value)) {
      throw refuse(400, 'invalid', `Nothing in this request has the address ${reference.value}`, place);
    }
    const target = literalTarget(reference.value);
    if (
      target &&
      !coming.has(`${target.type}/${target.id}`) &&
      !sandbox.repository.peek(target.type, target.id)
    ) {
      throw refuse(
        400,
        'not-found',
        `The referenced ${target.type} ${target.id} is not on this server`,
        place,
      );
    }
  }
}

async function resolveConditional(sandbox: Sandbox, reference: string, place: string): Promise<string> {
  const [type = '', criteria = ''] = reference.split(/\?(.*)/s);
  const [first, second] = await matches(sandbox, type, criteria);
  if (!first) throw refuse(404, 'not-found', `The conditional reference to ${type} matches nothing`, place);
  if (second)
    throw refuse(412, 'multiple-matches', `The conditional reference to ${type} matches several`, place);
  return `${type}/${first.id}`;
}
