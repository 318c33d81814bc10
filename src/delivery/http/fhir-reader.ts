import createDebug from 'debug';
import { Client, type FhirResource, type RequestOptions } from 'fhir-kit-client';
import { ExactNumber, MAX_DEPTH } from '../../json/parse.js';
import { type ExactJson, isExactObject } from '../answer/exact-json.js';
import type { Destination } from '../destination/destination.js';
import { boundedAgent } from './agents.js';
import { type AnswerHeaders, type Exchange, keptHeaders } from './exchange.js';
import { faultOf } from './fault.js';
import { type ClientDeps, ownAddress, type Reply } from './fhir-client.js';

/**
 * Reads of what other systems keep, and what a server says of itself; each answers with a Reply and never throws for
 * network or server. Numbers are as JavaScript reads them, so what must come back digit for digit is not read here.
 */
export interface FhirReader {
  metadata(): Promise<Reply>;
  read(type: string, id: string): Promise<Reply>;
  /** Searches past the server's caches. */
  search(type: string, params: Readonly<Record<string, string>>): Promise<Reply>;
  /** Asks an operation that only reads, such as CodeSystem/$validate-code, by GET. */
  operation(type: string, name: string, input: Readonly<Record<string, string>>): Promise<Reply>;
  /** The page of a search at an address of the destination's own origin; any other is refused with undefined. */
  follow(address: string): Promise<Reply | undefined>;
}

/** A reader of one destination, over fhir-kit-client and the destination's own connections. */
export function fhirReader(destination: Destination, deps: ClientDeps): FhirReader {
  const { baseUrl, mediaType, maxAnswerBytes, timeoutMs } = destination;
  const dispatcher = deps.readOver ?? boundedAgent(maxAnswerBytes);
  const client = new Client({ baseUrl, requestOptions: { dispatcher, redirect: 'manual' } });
  const ask = async (request: (options: RequestOptions) => Promise<FhirResource>): Promise<Reply> => {
    keepQuiet();
    const requestId = deps.newId();
    const authorization = await deps.authorize?.(destination, false);
    if (typeof authorization === 'object') return { requestId, exchange: authorization };
    const started = deps.clock();
    const timeout = AbortSignal.timeout(timeoutMs);
    const headers = {
      accept: mediaType,
      'accept-encoding': 'identity',
      'cache-control': 'no-cache',
      ...destination.headers,
      ...(authorization !== undefined && { authorization }),
      'x-request-id': requestId,
    };
    const answer = (status: number, kept: AnswerHeaders, body: unknown): Reply => {
      const exchange: Exchange = {
        ...{ kind: 'answer', status, headers: kept, body: '', bodyCut: false },
        durationMs: deps.clock() - started,
      };
      const read = asExact(body);
      return { requestId, exchange, ...(isExactObject(read) && { body: read }) };
    };
    try {
      const signal = deps.signal ? AbortSignal.any([deps.signal, timeout]) : timeout;
      const resource = await request({ headers, signal });
      const { response } = Client.httpFor(resource);
      return answer(response?.status ?? 200, response ? keptHeaders(response.headers) : {}, resource);
    } catch (error) {
      const told = answerIn(error);
      if (told) return answer(told.status, told.headers ? keptHeaders(told.headers) : {}, told.data);
      const stopped = deps.signal?.aborted ? 'aborted' : timeout.aborted ? 'timeout' : undefined;
      return { requestId, exchange: faultOf(error, stopped, deps.clock() - started) };
    }
  };
  return {
    metadata: () => ask(options => client.capabilityStatement(options)),
    read: (type, id) =>
      ask(options => client.read({ resourceType: type, id: encodeURIComponent(id), options })),
    search: (type, params) =>
      ask(options => client.search({ resourceType: type, searchParams: { ...params }, options })),
    operation: (resourceType, name, input) =>
      ask(options => client.operation({ resourceType, name, method: 'GET', input: { ...input }, options })),
    follow: async address => {
      const url = ownAddress(address, baseUrl);
      return url === undefined ? undefined : ask(options => client.request(url, { options }));
    },
  };
}

/** The answer that an error of the library tells of, for statuses other than 2xx and bodies that are no JSON. */
function answerIn(error: unknown): { status: number; data: unknown; headers?: Headers } | undefined {
  if (!(error instanceof Error) || !('response' in error)) return undefined;
  const { response } = error;
  if (typeof response !== 'object' || response === null || !('status' in response)) return undefined;
  const { status } = response;
  if (typeof status !== 'number') return undefined;
  const config = 'config' in error ? error.config : undefined;
  const headers =
    typeof config === 'object' && config !== null && 'headers' in config ? config.headers : undefined;
  const data = 'data' in response ? response.data : undefined;
  return { status, data, ...(headers instanceof Headers && { headers }) };
}

/** What the library parsed, in the form in which answers are read everywhere. */
function asExact(value: unknown, depth = 0): ExactJson {
  if (typeof value === 'number') return new ExactNumber(String(value));
  if (typeof value === 'string' || typeof value === 'boolean' || value === null) return value;
  if (typeof value !== 'object' || depth > MAX_DEPTH) return null;
  if (Array.isArray(value)) return value.map(inner => asExact(inner, depth + 1));
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, asExact(inner, depth + 1)]));
}

const OWN_LOGS = 'fhir-kit-client:*';

/** Under DEBUG the library prints addresses and bodies, which hold patient data: its lines are taken out of it. */
function keepQuiet(): void {
  if (!createDebug.enabled('fhir-kit-client:info') && !createDebug.enabled('fhir-kit-client:error')) return;
  createDebug.enable(`${createDebug.disable()},-${OWN_LOGS}`);
}
