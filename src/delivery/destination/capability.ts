import { type Finding, finding } from '../../findings/finding.js';
import { type ExactJson, isExactObject, listAt, textAt } from '../answer/exact-json.js';
import type { Submission } from '../request/submission.js';
import type { Destination } from './destination.js';

/** What a server claims of one resource type. */
interface TypeClaims {
  readonly interactions: ReadonlySet<string>;
  readonly conditionalCreate: boolean;
  readonly conditionalUpdate: boolean;
  readonly searchParameters: ReadonlySet<string>;
  /** `no-version`, `versioned` or `versioned-update`; absent where it is not said. */
  readonly versioning?: string;
}

/** What a CapabilityStatement says, read tolerantly. A claim, not a fact: servers leave out and overstate. */
export interface Capabilities {
  readonly fhirVersion?: string;
  readonly software?: string;
  readonly formats: readonly string[];
  readonly transaction: boolean;
  readonly batch: boolean;
  readonly types: ReadonlyMap<string, TypeClaims>;
}

/** Reads a CapabilityStatement; undefined when the answer is none. Codes it does not know are kept as they are. */
export function readCapabilities(body: ExactJson | undefined): Capabilities | undefined {
  if (textAt(body, 'resourceType') !== 'CapabilityStatement') return undefined;
  const rest = listAt(body, 'rest').find(r => textAt(r, 'mode') === 'server') ?? listAt(body, 'rest')[0];
  const system = codes(listAt(rest, 'interaction'));
  const fhirVersion = textAt(body, 'fhirVersion');
  const software = isExactObject(body) ? textAt(body['software'], 'name') : undefined;
  return {
    ...(fhirVersion !== undefined && { fhirVersion }),
    ...(software !== undefined && { software }),
    formats: listAt(body, 'format').filter(f => typeof f === 'string'),
    transaction: system.has('transaction'),
    batch: system.has('batch'),
    types: new Map(listAt(rest, 'resource').flatMap(r => typeClaims(r))),
  };
}

function typeClaims(resource: ExactJson): [string, TypeClaims][] {
  const type = textAt(resource, 'type');
  if (type === undefined || !isExactObject(resource)) return [];
  const versioning = textAt(resource, 'versioning');
  const searchParameters = listAt(resource, 'searchParam').map(p => textAt(p, 'name') ?? '');
  return [
    [
      type,
      {
        interactions: codes(listAt(resource, 'interaction')),
        conditionalCreate: resource['conditionalCreate'] === true,
        conditionalUpdate: resource['conditionalUpdate'] === true,
        searchParameters: new Set(searchParameters),
        ...(versioning !== undefined && { versioning }),
      },
    ],
  ];
}

function codes(list: readonly ExactJson[]): Set<string> {
  return new Set(list.map(item => textAt(item, 'code') ?? ''));
}

/**
 * What a server lacks for a submission, by its own word. Another release of FHIR than the destination is set to is
 * an error, and so are transactions that it does not declare, unless the settings say to try; the rest are
 * warnings, for the statement is only a claim.
 */
export function lacks(
  capabilities: Capabilities,
  submission: Submission,
  destination: Pick<Destination, 'name' | 'fhirVersion' | 'mode' | 'undeclaredTransaction'>,
): Finding[] {
  const at = 'destination';
  const { fhirVersion, types } = capabilities;
  const { name, mode } = destination;
  const findings: Finding[] = [];
  if (!speaks(capabilities, destination)) {
    const params = { destination: name, version: fhirVersion ?? 'no version', ours: destination.fhirVersion };
    findings.push(finding('delivery.other-version', at, params));
  }
  if (mode === 'transaction' && !capabilities.transaction) {
    const severity = destination.undeclaredTransaction ? 'warning' : 'error';
    findings.push(finding('delivery.transaction-not-declared', at, { destination: name }, { severity }));
  }
  if (mode === 'batch' && !capabilities.batch) {
    findings.push(finding('delivery.batch-not-declared', at, { destination: name }));
  }
  if (types.size === 0) return findings;
  const needed = new Map(submission.entries.map(e => [e.type, e.method]));
  for (const [type, method] of needed) {
    const claims = types.get(type);
    const interaction = method === 'PUT' ? 'update' : 'create';
    if (!claims)
      findings.push(finding('delivery.type-not-declared', at, { destination: name, type, what: 'at all' }));
    else if (method !== 'GET' && !claims.interactions.has(interaction)) {
      const what = `for ${interaction}`;
      findings.push(finding('delivery.type-not-declared', at, { destination: name, type, what }));
    }
  }
  return findings;
}

/** True when major and minor version are those that the destination is set to. */
export function speaks(
  { fhirVersion }: Capabilities,
  { fhirVersion: ours }: Pick<Destination, 'fhirVersion'>,
): boolean {
  const release = (version: string) => version.split('.').slice(0, 2).join('.');
  return fhirVersion !== undefined && release(fhirVersion) === release(ours);
}
