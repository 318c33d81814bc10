import type { Example } from '../corpus/examples.js';
import { isObject, itemsAt, type Json, type JsonObject, textAt } from '../corpus/json.js';
import { type Operator, onSites } from './operator.js';

const kind =
  (...types: string[]) =>
  (example: Example) =>
    example.type === 'Bundle' && types.includes(textAt(example.json, 'type') ?? '');
const isBundle = (example: Example) => example.type === 'Bundle';

function onBundle(
  id: string,
  matches: (example: Example) => boolean,
  edit: (bundle: JsonObject, entries: JsonObject[]) => void,
): Operator {
  return {
    id,
    family: 'bundle',
    mutations: example =>
      matches(example) && itemsAt(example.json, 'entry').length > 0
        ? [
            {
              where: 'Bundle',
              make: () => {
                const bundle = structuredClone(example.json);
                edit(bundle, itemsAt(bundle, 'entry').filter(isObject));
                return JSON.stringify(bundle);
              },
            },
          ]
        : [],
  };
}

const first = (entries: JsonObject[]) => entries[0] ?? {};
const last = (entries: JsonObject[]) => entries.at(-1) ?? {};
const resourceOf = (entry: JsonObject): JsonObject => (isObject(entry['resource']) ? entry['resource'] : {});
const document = kind('document');
const transaction = kind('transaction', 'batch');
const collection = kind('collection', 'searchset', 'document');
const push = (bundle: JsonObject, entry: Json) => {
  bundle['entry'] = [...itemsAt(bundle, 'entry'), entry];
};
const stray: JsonObject = {
  fullUrl: 'urn:uuid:3c9d1f6e-5f0b-4c57-8ab5-3f1de3b8a001',
  resource: {
    resourceType: 'Basic',
    id: 'stray',
    text: { status: 'generated', div: '<div xmlns="http://www.w3.org/1999/xhtml">stray</div>' },
    code: { text: 'stray' },
  },
};

export const bundle: Operator[] = [
  onBundle('composition-not-first', document, b => {
    b['entry'] = itemsAt(b, 'entry').reverse();
  }),
  onBundle('no-composition', document, b => {
    b['entry'] = itemsAt(b, 'entry').slice(1);
  }),
  onBundle('no-timestamp', document, b => {
    delete b['timestamp'];
  }),
  onBundle('no-identifier', document, b => {
    delete b['identifier'];
  }),
  onBundle('identifier-without-system', document, b => {
    b['identifier'] = { value: 'a' };
  }),
  onBundle('identifier-without-value', document, b => {
    b['identifier'] = { system: 'http://example.org/ids' };
  }),
  onBundle('unreachable-entry', document, b => push(b, structuredClone(stray))),
  onBundle('unreachable-entry-pointing-in', document, (b, e) =>
    push(b, {
      ...structuredClone(stray),
      resource: {
        ...(stray['resource'] as JsonObject),
        subject: { reference: textAt(e[1], 'fullUrl') ?? '' },
      },
    }),
  ),
  onBundle('patient-entry-removed', document, (b, e) => {
    b['entry'] = e.filter(x => resourceOf(x)['resourceType'] !== 'Patient');
  }),
  onBundle('last-entry-removed', document, b => {
    b['entry'] = itemsAt(b, 'entry').slice(0, -1);
  }),
  onBundle('second-entry-removed', document, (b, e) => {
    b['entry'] = [first(e), ...e.slice(2)];
  }),
  onBundle('no-full-url', isBundle, (_, e) => {
    delete last(e)['fullUrl'];
  }),
  onBundle('no-full-url-on-first', isBundle, (_, e) => {
    delete first(e)['fullUrl'];
  }),
  onBundle('same-full-url-twice', isBundle, (_, e) => {
    last(e)['fullUrl'] = first(e)['fullUrl'] ?? 'http://example.org/a';
  }),
  onBundle('entry-doubled', isBundle, (b, e) => push(b, structuredClone(last(e)))),
  onBundle('full-url-versioned', isBundle, (_, e) => {
    last(e)['fullUrl'] =
      `http://example.org/fhir/${String(resourceOf(last(e))['resourceType'])}/${String(resourceOf(last(e))['id'])}/_history/1`;
  }),
  onBundle('full-url-other-id', isBundle, (_, e) => {
    last(e)['fullUrl'] = `http://example.org/fhir/${String(resourceOf(last(e))['resourceType'])}/other`;
  }),
  onBundle('full-url-other-type', isBundle, (_, e) => {
    last(e)['fullUrl'] = `http://example.org/fhir/Wobble/${String(resourceOf(last(e))['id'])}`;
  }),
  onBundle('full-url-relative', isBundle, (_, e) => {
    last(e)['fullUrl'] =
      `${String(resourceOf(last(e))['resourceType'])}/${String(resourceOf(last(e))['id'])}`;
  }),
  onBundle('full-url-bad-uuid', isBundle, (_, e) => {
    last(e)['fullUrl'] = 'urn:uuid:not-a-uuid';
  }),
  onBundle('full-url-upper-case-uuid', isBundle, (_, e) => {
    last(e)['fullUrl'] = 'urn:uuid:3C9D1F6E-5F0B-4C57-8AB5-3F1DE3B8A001';
  }),
  onBundle('full-url-oid-valid', kind('collection'), (_, e) => {
    last(e)['fullUrl'] = 'urn:oid:1.2.3.4';
  }),
  onBundle('full-url-changed', isBundle, (_, e) => {
    last(e)['fullUrl'] = 'urn:uuid:3c9d1f6e-5f0b-4c57-8ab5-3f1de3b8a002';
  }),
  onBundle('request-in-document', document, (_, e) => {
    last(e)['request'] = { method: 'POST', url: 'Patient' };
  }),
  onBundle('response-in-document', document, (_, e) => {
    last(e)['response'] = { status: '200' };
  }),
  onBundle('search-in-document', document, (_, e) => {
    last(e)['search'] = { mode: 'match' };
  }),
  onBundle('total-in-document', document, b => {
    b['total'] = 3;
  }),
  onBundle('type-message', document, b => {
    b['type'] = 'message';
  }),
  onBundle('type-unknown', isBundle, b => {
    b['type'] = 'wobble';
  }),
  onBundle('no-type', isBundle, b => {
    delete b['type'];
  }),
  onBundle('empty-entry', isBundle, b => push(b, {})),
  onBundle('entry-without-resource', isBundle, b =>
    push(b, { fullUrl: 'http://example.org/fhir/Patient/nothing' }),
  ),
  onBundle('entry-resource-without-type', isBundle, b =>
    push(b, { fullUrl: 'http://example.org/fhir/Patient/nothing', resource: { id: 'nothing' } }),
  ),
  onBundle('entry-unknown-property', isBundle, (_, e) => {
    last(e)['wobble'] = 'text';
  }),
  onBundle('entries-empty-array', isBundle, b => {
    b['entry'] = [];
  }),
  onBundle('link-without-relation', isBundle, b => {
    b['link'] = [{ url: 'http://example.org' }];
  }),
  onBundle('nested-broken-resource', isBundle, (_, e) => {
    resourceOf(last(e))['wobble'] = 'text';
  }),
  onBundle('as-collection-valid', document, b => {
    b['type'] = 'collection';
  }),
  onBundle('as-transaction-without-requests', collection, b => {
    b['type'] = 'transaction';
    delete b['total'];
  }),
  onBundle('as-transaction', collection, (b, e) => {
    asRequests(b, e, 'transaction');
  }),
  onBundle('as-batch', collection, (b, e) => {
    asRequests(b, e, 'batch');
  }),
  onBundle('as-document', kind('collection', 'searchset', 'transaction'), b => {
    b['type'] = 'document';
  }),
  onBundle('as-history-without-requests', collection, b => {
    b['type'] = 'history';
  }),
  onBundle('as-response-without-responses', collection, b => {
    b['type'] = 'transaction-response';
  }),
  onBundle('request-removed', transaction, (_, e) => {
    delete last(e)['request'];
  }),
  onBundle('request-method-unknown', transaction, (_, e) => {
    last(e)['request'] = { method: 'SEND', url: 'Patient' };
  }),
  onBundle('request-method-lower-case', transaction, (_, e) => {
    last(e)['request'] = { method: 'post', url: 'Patient' };
  }),
  onBundle('request-without-url', transaction, (_, e) => {
    last(e)['request'] = { method: 'POST' };
  }),
  onBundle('request-without-method', transaction, (_, e) => {
    last(e)['request'] = { url: 'Patient' };
  }),
  onBundle('request-post-without-resource', transaction, b =>
    push(b, { request: { method: 'POST', url: 'Patient' } }),
  ),
  onBundle('request-delete-valid', transaction, b =>
    push(b, { request: { method: 'DELETE', url: 'Patient/gone' } }),
  ),
  onBundle('request-get-valid', transaction, b =>
    push(b, { request: { method: 'GET', url: 'Patient/there' } }),
  ),
  onBundle(
    'request-conditional-valid',
    ex => transaction(ex) && itemsAt(ex.json, 'entry').some(x => isObject(x) && isObject(x['resource'])),
    (_, e) => {
      const filled = e.find(x => isObject(x['resource'])) ?? {};
      filled['request'] = {
        method: 'POST',
        url: String(resourceOf(filled)['resourceType']),
        ifNoneExist: 'identifier=a|b',
      };
    },
  ),
  onBundle('response-in-transaction', transaction, (_, e) => {
    last(e)['response'] = { status: '200' };
  }),
  onBundle('total-in-transaction', transaction, b => {
    b['total'] = 3;
  }),
  onBundle('search-mode-unknown', kind('searchset'), (_, e) => {
    last(e)['search'] = { mode: 'wobble' };
  }),
  onBundle('total-in-searchset-valid', kind('searchset'), b => {
    b['total'] = 3;
  }),
  onBundle('total-negative', kind('searchset'), b => {
    b['total'] = -3;
  }),
  onSites(
    'bundle',
    'urn-unresolved',
    (s, ex) =>
      isBundle(ex) &&
      s.type === 'Reference' &&
      textAt(s.value, 'reference') !== undefined &&
      s.resource.length > 0,
    ({ set }) => set({ reference: 'urn:uuid:6f2b8e0a-94e4-4a3e-9d3e-1e8f6c1f2a77' }),
  ),
  onSites(
    'bundle',
    'relative-unresolved',
    (s, ex) =>
      isBundle(ex) &&
      s.type === 'Reference' &&
      textAt(s.value, 'reference') !== undefined &&
      s.element.targets[0] !== undefined &&
      s.element.targets[0] !== 'Resource' &&
      s.resource.length > 0,
    ({ set, site }) => set({ reference: `${site.element.targets[0] ?? ''}/nowhere` }),
  ),
  onSites(
    'bundle',
    'points-at-other-entry',
    (s, ex) =>
      isBundle(ex) &&
      s.type === 'Reference' &&
      /^urn:|^http|^[A-Z]/.test(textAt(s.value, 'reference') ?? '') &&
      s.resource.length > 0,
    ({ root, set }) => set({ reference: textAt(itemsAt(root, 'entry')[0], 'fullUrl') ?? '' }),
  ),
  onSites(
    'bundle',
    'composition-subject-removed',
    s => s.element.path === 'Composition.subject',
    ({ set }) => set(undefined),
  ),
  onSites(
    'bundle',
    'section-entry-dangling',
    s => s.element.path === 'Composition.section.entry',
    ({ set }) => set({ reference: 'urn:uuid:6f2b8e0a-94e4-4a3e-9d3e-1e8f6c1f2a77' }),
  ),
  onSites(
    'bundle',
    'section-entry-dangling-relative',
    s => s.element.path === 'Composition.section.entry',
    ({ set }) => set({ reference: 'Observation/nowhere' }),
  ),
  onSites(
    'bundle',
    'inner-id-changed',
    (s, ex) => isBundle(ex) && s.key === 'id' && s.pointer.length === 4,
    ({ set }) => set('changed'),
  ),
  onSites(
    'bundle',
    'inner-id-removed',
    (s, ex) => isBundle(ex) && s.key === 'id' && s.pointer.length === 4,
    ({ set }) => set(undefined),
  ),
];

function asRequests(bundle: JsonObject, entries: JsonObject[], type: string): void {
  bundle['type'] = type;
  delete bundle['total'];
  for (const entry of entries) {
    delete entry['search'];
    entry['request'] = { method: 'POST', url: String(resourceOf(entry)['resourceType'] ?? 'Patient') };
  }
}
