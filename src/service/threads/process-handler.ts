import { byHarm } from '../../findings/harm.js';
import { languageOf, languages } from '../../findings/languages.js';
import type { Json } from '../../json/parse.js';
import { issuesOf, type Reply, refusal } from '../api/reply.js';
import { inputsOf, isObject, sentResource } from '../fhir/inputs.js';
import { FHIR_JSON } from '../fhir/negotiate.js';
import { type CasePorts, preparedCase } from './case-handlers.js';

/** Parameters of the operation: OperationDefinition process-case of our profiles. */
const inputs = {
  record: { as: ['resource'], most: 1 },
  previous: { as: ['resource'], most: 50 },
  language: { as: ['valueCode'], most: 1 },
  output: { as: ['valueCode'], most: 2 },
};
const outputs = ['submission', 'document'] as const;

const RECORD = /^(application\/(json|yaml|x-yaml)|text\/(yaml|x-yaml|plain))\s*(;|$)/i;
/** Base64 of a FHIR base64Binary, spaces between its groups let pass. Source: FHIR R4, datatypes.html#base64Binary. */
const BASE64 = /^[A-Za-z0-9+/]+={0,2}$/;

const no = (text: string, status = 400) => refusal(status, status === 413 ? 'too-long' : 'invalid', text);

/**
 * POST /fhir/$process-case: findings of a record, what would be sent of it, and its document. While an error stands the
 * findings alone, as `casetally prepare` writes nothing then.
 */
export async function processHandler(body: Uint8Array, maxBytes: number, ports: CasePorts): Promise<Reply> {
  const sent = sentResource(body);
  if ('refused' in sent) return sent.refused;
  if (sent.resource['resourceType'] !== 'Parameters')
    return no("This is asked for with Parameters that hold the case record as 'record', a Binary.");
  const given = inputsOf(sent, inputs);
  if ('refused' in given) return given.refused;
  const [record, ...previous] = [...(given.get('record') ?? []), ...(given.get('previous') ?? [])];
  if (record === undefined || !given.has('record'))
    return no("Parameters lack 'record': a Binary with the case record.");
  const read = [record, ...previous].map(one => bytesOf(one, maxBytes));
  const records: Uint8Array[] = [];
  for (const one of read) {
    if ('status' in one) return one;
    records.push(one);
  }
  const [tag] = given.get('language') ?? [];
  const language = typeof tag === 'string' ? languageOf(tag) : undefined;
  if (tag !== undefined && !language) return no(`'language' is one of ${languages.join(', ')}.`);
  const wanted = given.get('output') ?? outputs;
  if (!wanted.every(one => outputs.some(known => known === one)))
    return no(`'output' is one of ${outputs.join(', ')}.`);
  const [first = new Uint8Array(), ...earlier] = records;
  const prepared = await preparedCase(
    { record: first, previous: earlier, pictures: new Map(), sources: [] },
    { ...ports, language },
  );
  if ('refused' in prepared) return prepared.refused;
  const { sendable, findings } = prepared.prepared;
  const found = issuesOf(byHarm(findings), language);
  const nothing = { severity: 'information', code: 'informational', details: { text: 'Nothing was found.' } };
  const outcome = { resourceType: 'OperationOutcome', issue: found.length > 0 ? found : [nothing] };
  const made = outputs
    .filter(name => sendable && wanted.includes(name))
    .map(name => `{"name":"${name}","resource":${prepared.prepared[name].trim()}}`);
  const parameter = [...made, `{"name":"outcome","resource":${JSON.stringify(outcome)}}`].join(',');
  return {
    status: 200,
    body: `{"resourceType":"Parameters","parameter":[${parameter}]}`,
    headers: FHIR_JSON,
  };
}

/** The bytes of a Binary with a record, or why it is not read. */
function bytesOf(given: Json, maxBytes: number): Uint8Array | Reply {
  if (!isObject(given) || given['resourceType'] !== 'Binary')
    return no('A case record is to stand in a Binary, with contentType and data.');
  const { contentType, data } = given;
  if (typeof contentType !== 'string' || !RECORD.test(contentType))
    return refusal(
      415,
      'not-supported',
      "The contentType of the Binary of a record is 'application/yaml' or 'application/json'.",
    );
  const text = typeof data === 'string' ? data.replace(/\s+/g, '') : '';
  if (!BASE64.test(text) || text.length % 4 !== 0)
    return no("The Binary lacks 'data' with the record in base64.");
  const bytes = Buffer.from(text, 'base64');
  return bytes.length > maxBytes ? no(`A case may have ${maxBytes} bytes at most.`, 413) : bytes;
}
