import type { OperationOutcome, Resource } from '@medplum/fhirtypes';

/** What an interaction answers, before it becomes HTTP or a Bundle entry. */
export interface Reply {
  readonly status: number;
  readonly body?: Resource;
  readonly location?: string;
  readonly etag?: string;
  readonly lastModified?: string;
}

/** One interaction as the server sees it, whether it came by HTTP or in a Bundle entry. */
export interface Interaction {
  readonly method: string;
  /** Relative to the base, with its query: `Procedure?identifier=…`, `Device/12`. */
  readonly url: string;
  readonly body?: unknown;
  readonly ifNoneExist?: string;
  readonly ifMatch?: string;
}

type IssueCode = OperationOutcome['issue'][number]['code'];

/** Ends an interaction with an OperationOutcome; inside a transaction it undoes the whole of it. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  readonly status: number;
  readonly outcome: OperationOutcome;

  constructor(status: number, outcome: OperationOutcome) {
    super(outcome.issue[0]?.diagnostics ?? 'refused');
    this.status = status;
    this.outcome = outcome;
  }
}

/** A refusal with one issue; `expression` is a FHIRPath into the resource or Bundle that was sent. */
export function refuse(status: number, code: IssueCode, diagnostics: string, expression?: string): Refusal {
  return new Refusal(status, {
    resourceType: 'OperationOutcome',
    issue: [{ severity: 'error', code, diagnostics, ...(expression && { expression: [expression] }) }],
  });
}

/** The answer that carries a stored resource, with its version as ETag and its place as Location. */
export function stored(status: number, resource: Resource): Reply {
  const version = resource.meta?.versionId;
  return {
    status,
    body: resource,
    location: `${resource.resourceType}/${resource.id}/_history/${version}`,
    etag: `W/"${version}"`,
    ...(resource.meta?.lastUpdated && { lastModified: resource.meta.lastUpdated }),
  };
}
