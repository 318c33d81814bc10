import { writeFhirJson } from '../../json/write.js';
import { ownOperation } from '../../pipeline/own-package.js';
import { canonicalOf } from '../../pipeline/settings.js';
import type { ServicePorts } from '../api/handlers.js';
import { type Reply, refusal } from '../api/reply.js';
import type { Asked, Route } from '../api/route.js';
import type { Wanted } from '../threads/case-job.js';
import { capabilityStatement } from './capability.js';
import { FHIR_JSON, notAcceptable, notReadable } from './negotiate.js';
import { resourceTypes } from './resource-types.js';

/** Bytes of what an operation is asked with: a case and its earlier versions in base64, or a bundle with its documents. */
const MAX_INPUT = 10_000_000;

const resource = (path: string, of: (ports: ServicePorts) => object): Route => ({
  path,
  takes: 'nothing',
  answer: ({ accept, query }, ports) =>
    notAcceptable(accept, query['_format']) ?? {
      status: 200,
      body: writeFhirJson(of(ports), 0),
      headers: FHIR_JSON,
    },
});

const operation = (path: string, wanted: (asked: Asked) => Wanted | Reply): Route => ({
  path,
  right: 'check',
  takes: 'case',
  most: MAX_INPUT,
  wanted: asked =>
    notAcceptable(asked.accept, asked.query['_format']) ??
    notReadable(asked.header('content-type')) ??
    wanted(asked),
});

/** What of the address goes with a resource that is the body itself. */
function validateWanted({ params, query }: Asked): Wanted | Reply {
  const { type } = params;
  // Source: FHIR R4, http.html: 404 for a resource type that is not supported.
  if (type !== undefined && !resourceTypes.has(type))
    return refusal(404, 'not-found', 'FHIR R4 has no resource type of the name in the address.');
  const { mode, profile } = query;
  const several = [mode, profile].some(one => one !== undefined && typeof one !== 'string');
  if (several) return refusal(400, 'invalid', 'Write ?mode= and ?profile= once each, or leave them out.');
  return {
    do: 'validate',
    type,
    mode: typeof mode === 'string' ? mode : undefined,
    profile: typeof profile === 'string' ? profile : undefined,
  };
}

const definition = ({ site, softwareVersion }: ServicePorts) =>
  ownOperation('process-case', softwareVersion, canonicalOf(site.site).canonical);

/** The service as a FHIR server: operations alone, on what a request brings. */
export const fhirRoutes: readonly Route[] = [
  resource('/fhir/metadata', ports => capabilityStatement(ports.softwareVersion, definition(ports))),
  resource('/fhir/OperationDefinition/process-case', definition),
  operation('/fhir/$validate', validateWanted),
  operation('/fhir/:type/$validate', validateWanted),
  { ...operation('/fhir/$process-case', () => ({ do: 'process' })), audit: 'export' },
];
