import { Validator } from '@seriousme/openapi-schema-validator';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ZodType } from 'zod';
import { allRoutes } from '../../../src/service/api/all-routes.js';
import * as answers from '../../../src/service/api/openapi/answers.js';
import { described } from '../../../src/service/api/openapi/described.js';
import { openApiDocument } from '../../../src/service/api/openapi/document.js';
import { startTestService, type TestService } from '../sign-in/service.js';

/* The document of the addresses, held against the published schema of OpenAPI 3.1 (spec.openapis.org). */

const document = openApiDocument('1.2.3') as {
  paths: Record<string, Record<string, { requestBody?: { content: Record<string, { schema: object }> } }>>;
};
let service: TestService;
beforeAll(async () => {
  service = await startTestService(() => ({ tokens: undefined }));
});
afterAll(() => service.stop());

const json = { 'content-type': 'application/json' };
async function answer(path: string, schema: ZodType, init: RequestInit = {}): Promise<unknown> {
  const response = await fetch(service.base + path, init);
  const body = (await response.json()) as unknown;
  expect([path, schema.safeParse(body).error?.issues]).toEqual([path, undefined]);
  return body;
}

describe('the document', () => {
  it('is OpenAPI 3.1', async () => {
    const result = await new Validator().validate(structuredClone(document));
    expect(result.errors).toBeUndefined();
    expect(result.valid).toBe(true);
    const broken = structuredClone(document) as unknown as { info: { version?: string } };
    delete broken.info.version;
    expect((await new Validator().validate(broken)).valid).toBe(false);
  });

  it('has every address behind the guard, and none besides', () => {
    const routes = allRoutes.map(({ method, route }) => `${method.toUpperCase()} ${route.path}`);
    expect(Object.keys(described).sort()).toEqual(routes.sort());
    const told = Object.entries(document.paths).flatMap(([path, all]) =>
      Object.keys(all).map(method => `${method.toUpperCase()} ${path}`),
    );
    expect(told.sort()).toEqual(
      routes.map(key => key.replace(' /', ' /v1/').replace(/:(\w+)/g, '{$1}')).sort(),
    );
  });

  it('has patterns that every language reads: classes of characters by their property are not among them', () => {
    const patterns = [...JSON.stringify(document).matchAll(/"pattern":"((?:[^"\\]|\\.)*)"/g)];
    expect(patterns.length).toBeGreaterThan(5);
    expect(patterns.flatMap(([, one = '']) => (/\\p\{/i.test(one) ? [one] : []))).toEqual([]);
  });

  it('names the words of a parameter that takes no others', () => {
    const schemas = JSON.stringify(document.paths['/v1/cases/report']);
    for (const words of [
      ['text', 'html', 'pdf'],
      ['A4', 'Letter'],
    ])
      expect(schemas).toContain(`"enum":${JSON.stringify(words)}`);
  });

  it('names every form of a report', () => {
    const { responses } = (document.paths['/v1/cases/report']?.['post'] ?? {}) as {
      responses?: Record<string, { content?: object }>;
    };
    const forms = ['application/pdf', 'text/html', 'text/plain'];
    expect(Object.keys(responses?.['200']?.content ?? {}).sort()).toEqual(forms);
  });

  it('says what bodies hold by the schemas that they are read with', () => {
    const sign = document.paths['/v1/drafts/{id}/sign']?.['post']?.requestBody;
    expect(sign?.content['application/json']?.schema).toMatchObject({
      ...{ type: 'object', required: ['author'], additionalProperties: false },
    });
  });
});

describe('addresses', () => {
  it.each(Object.entries(document.paths))('%s answers with its version', async (path, all) => {
    // Every address behind the guard knows what it is asked for with; nothing else answers so.
    const answer = await fetch(service.base + path.replace(/\{\w+\}/g, 'x'), { method: 'DELETE' });
    const allowed = Object.keys(all).flatMap(method =>
      method === 'get' ? ['GET', 'HEAD'] : method.toUpperCase(),
    );
    expect([answer.status, answer.headers.get('allow')?.split(', ').sort()]).toEqual([405, allowed.sort()]);
  });
});

describe('answers', () => {
  it('are what the document says', async () => {
    await answer('/v1/outbox', answers.items);
    const begun = (await answer('/v1/drafts', answers.draft, {
      method: 'POST',
      headers: { 'casetally-by': 'Ana' },
    })) as { id: string };
    const on = `/v1/drafts/${begun.id}`;
    await answer('/v1/drafts', answers.draftList);
    await answer(on, answers.draft);
    await answer(`${on}/versions`, answers.versions);
    const edits = [{ path: 'case.id', value: 'C-1' }];
    await answer(on, answers.saved, {
      method: 'PATCH',
      headers: { ...json, 'if-match': '"1"' },
      body: JSON.stringify({ batch: 'batch-0001', by: 'Ana', edits }),
    });
    await answer(`${on}/discard`, answers.moved, {
      method: 'POST',
      headers: { ...json, 'if-match': '"2"' },
      body: JSON.stringify({ by: 'Ana', why: 'begun twice' }),
    });
    await answer('/v1/drafts/none', answers.problem);
    await answer('/v1/outbox/none', answers.outcome);
  });

  it('have the document and its page for everybody, without script', async () => {
    expect(await answer('/openapi.json', answers.anything)).toMatchObject({ openapi: '3.1.0' });
    const page = await fetch(`${service.base}/api`);
    const html = await page.text();
    expect(page.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(html).toContain('<code>PATCH /v1/drafts/{id}</code>');
    expect(html).not.toMatch(/<script|undefined|\[object/);
  });
});
