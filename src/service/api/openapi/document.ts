import { z } from 'zod';
import { createDocument, type ZodOpenApiOperationObject } from 'zod-openapi';
import type { Right } from '../../../site/service.js';
import { allRoutes } from '../all-routes.js';
import type { Route } from '../route.js';
import * as answers from './answers.js';
import { type Described, described } from './described.js';

const RECORD = 'The text of a case record, YAML or JSON (see GET /schema)';
const FHIR = 'application/fhir+json';
const isFhir = (path: string) => path.startsWith('/fhir/');
const text = (description: string) => ({ schema: z.string().describe(description) });

/** What the service answers, as OpenAPI 3.1. @param version of the software */
export function openApiDocument(version: string): object {
  const paths: Record<string, Record<string, ZodOpenApiOperationObject>> = {};
  for (const { method, route } of allRoutes) {
    const about = described[`${method.toUpperCase()} ${route.path}`];
    if (!about) continue;
    const path = `/v1${route.path.replace(/:(\w+)/g, '{$1}')}`;
    paths[path] = { ...paths[path], [method]: operation(route, about) };
  }
  return createDocument({
    openapi: '3.1.0',
    info: {
      title: 'Casetally',
      version,
      description:
        'Decision support only: check every result. Local policy and licensed judgement come first; no computed value is an order.',
      license: { name: 'See LICENSE' },
    },
    servers: [{ url: '/' }],
    paths,
    security: [{ token: [] }, { session: [] }],
    components: {
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer', description: 'A token of the site configuration' },
        session: {
          ...{ type: 'apiKey', in: 'cookie', name: '__Host-casetally-session' },
          description: 'Of whoever signed in; what changes something is sent with x-casetally-page',
        },
      },
    },
  });
}

function operation(route: Route, about: Described): ZodOpenApiOperationObject {
  const { summary, answer, status = 200, query = {}, versioned } = about;
  const problems = route.path.startsWith('/drafts');
  const fhir = isFhir(route.path);
  const named = [...route.path.matchAll(/:(\w+)/g)].map(([, name = '']) => name);
  const refusal = {
    description: 'A refusal: its text says why and what would mend it',
    content: problems
      ? { 'application/problem+json': { schema: answers.problem } }
      : fhir
        ? { [FHIR]: { schema: answers.fhirOutcome } }
        : { 'application/json': { schema: answers.outcome } },
  };
  const types = 'length' in answer ? answer : [];
  const plain = { description: summary, content: Object.fromEntries(types.map(type => [type, {}])) };
  return {
    summary,
    description: rightText(route.right),
    ...(route.right === undefined && { security: [] }),
    requestParams: {
      ...(named.length > 0 && { path: fields(named.map(name => [name, z.string()])) }),
      ...(Object.keys(query).length > 0 && {
        query: fields(
          Object.entries(query).map(([name, what]) => [
            name,
            typeof what === 'string'
              ? z.string().optional().describe(what)
              : z.enum(what.words).optional().describe(what.about),
          ]),
        ),
      }),
      ...(versioned && {
        header: z.object({ 'If-Match': z.string().describe('ETag of the version that this is made for') }),
      }),
    },
    ...bodyOf(route, about),
    responses: {
      [`${status}`]:
        'length' in answer
          ? plain
          : { description: summary, content: { [fhir ? FHIR : 'application/json']: { schema: answer } } },
      default: refusal,
    },
  };
}

const fields = (entries: readonly (readonly [string, z.ZodType])[]) => z.object(Object.fromEntries(entries));

const rightText = (right: Right | undefined): string =>
  right === undefined ? 'For everybody.' : `Needs the right \`${right}\`.`;

function bodyOf({ takes, path }: Route, { body }: Described): Pick<ZodOpenApiOperationObject, 'requestBody'> {
  if (body) return { requestBody: { required: true, content: { 'application/json': { schema: body } } } };
  if (takes === 'text')
    return {
      requestBody: { content: { 'application/yaml': text(RECORD), 'application/json': text(RECORD) } },
    };
  if (takes !== 'case') return {};
  if (isFhir(path))
    return { requestBody: { required: true, content: { [FHIR]: { schema: answers.resource } } } };
  const what = path === '/dose/check' ? 'A DICOM dose report' : RECORD;
  const parts = z.looseObject({ case: z.string().optional().describe(what) });
  const one = path === '/dose/check' ? 'application/dicom' : 'application/yaml';
  return {
    requestBody: {
      required: true,
      content: { [one]: text(what), 'multipart/form-data': { schema: parts } },
    },
  };
}
