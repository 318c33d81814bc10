import { toOperationOutcome } from '../../conformance/outcome.js';
import type { Json, JsonObject } from '../../json/parse.js';
import { offsetOf } from '../../json/position.js';
import type { Tools } from '../../pipeline/prepare.js';
import { type Reply, refusal } from '../api/reply.js';
import { inputsOf, isObject, type SentResource, sentResource } from '../fhir/inputs.js';
import { FHIR_JSON } from '../fhir/negotiate.js';
import type { Wanted } from './case-job.js';

type ValidateWanted = Extract<Wanted, { do: 'validate' }>;

/** Parameters of the operation. Source: FHIR R4, resource-operation-validate.html. */
const inputs = {
  resource: { as: ['resource'], most: 1 },
  mode: { as: ['valueCode'], most: 1 },
  profile: { as: ['valueUri', 'valueCanonical'], most: 1 },
};

/** What is to be validated, and by what. */
interface Asked {
  /** JSON in which all but the resource is blank, so that lines and columns are those of the body. */
  readonly text: string;
  readonly type: string;
  readonly mode: string | undefined;
  readonly profile: string | undefined;
}

const no = (text: string, code: 'invalid' | 'not-supported' = 'invalid') => refusal(400, code, text);

/**
 * POST /fhir/$validate, /fhir/TYPE/$validate: what conformance says of a resource, which is the body or stands in
 * Parameters. 200 whether it is valid or not. Source: FHIR R4, resource-operation-validate.html.
 */
export function validateHandler(
  body: Uint8Array,
  wanted: ValidateWanted,
  { validator }: Pick<Tools, 'validator'>,
): Reply {
  const sent = sentResource(body);
  if ('refused' in sent) return sent.refused;
  // Parameters are always those of the operation: one that is to be validated stands in `resource`.
  const asked = sent.resource['resourceType'] === 'Parameters' ? inParameters(sent) : asBody(sent, wanted);
  if ('refused' in asked) return asked.refused;
  const { text, type, mode, profile } = asked;
  if (wanted.type !== undefined && type !== wanted.type)
    return no(`The address is for ${wanted.type}, and the resource is of another type: use one for both.`);
  const why = notDone(mode, profile);
  if (why) return why;
  const result = validator.validateText(text, profile === undefined ? {} : { profiles: [profile] });
  return { status: 200, body: JSON.stringify(toOperationOutcome(result)), headers: FHIR_JSON };
}

const typeOf = (resource: JsonObject) => String(resource['resourceType']);

const asBody = ({ text, resource }: SentResource, { mode, profile }: ValidateWanted): Asked => ({
  ...{ text, type: typeOf(resource), mode, profile },
});

function inParameters(sent: SentResource): Asked | { readonly refused: Reply } {
  const given = inputsOf(sent, inputs);
  if ('refused' in given) return given;
  const [resource] = given.get('resource') ?? [];
  const [mode] = given.get('mode') ?? [];
  const [profile] = given.get('profile') ?? [];
  if (!isText(mode) || !isText(profile)) return { refused: no("'mode' and 'profile' are to be text.") };
  if (resource === undefined)
    return { refused: notDone(mode, profile) ?? no("Parameters lack 'resource': what is to be validated.") };
  if (!isObject(resource) || typeof resource['resourceType'] !== 'string')
    return { refused: no("'resource' is to be a resource: an object with a resourceType.") };
  const start = offsetOf(sent.source.offsets, resource) ?? 0;
  return { text: alone(sent.text, start), type: typeOf(resource), mode, profile };
}

const isText = (value: Json | undefined): value is string | undefined =>
  value === undefined || typeof value === 'string';

/** Modes that ask about a stored resource, and those that there are not; undefined where it can go on. */
function notDone(mode: string | undefined, profile: string | undefined): Reply | undefined {
  switch (mode) {
    case undefined:
    // Content that is fine as such is fine as a create: there are no resources here that it could collide with.
    case 'create':
      return undefined;
    case 'update':
    case 'delete':
      return no(
        `The mode '${mode}' asks about a stored resource, and none is stored here: use 'create' or leave it out.`,
        'not-supported',
      );
    // By the standard about a stored resource too; with one that is sent along it means what it says.
    case 'profile':
      return profile === undefined ? no("The mode 'profile' needs 'profile': by which one.") : undefined;
    default:
      return no("There is no such mode: use 'create' or 'profile', or leave it out.");
  }
}

/** JSON text with all but the object at `start` blank. The text is known to be JSON. */
function alone(text: string, start: number): string {
  const token = /"(?:[^"\\]|\\.)*"|[{}]/g;
  token.lastIndex = start;
  let depth = 0;
  for (let found = token.exec(text); found; found = token.exec(text)) {
    if (found[0] === '{') depth += 1;
    else if (found[0] === '}') depth -= 1;
    if (depth === 0) break;
  }
  const blank = text.slice(0, start).replace(/[^\n]/g, ' ');
  return blank + text.slice(start, token.lastIndex);
}
