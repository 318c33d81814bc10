import { createHash } from 'node:crypto';
import { isLosslessNumber, parse } from 'lossless-json';
import { messageOf } from '../../src/findings/finding.js';
import type { PreparedCase } from '../../src/pipeline/prepare.js';
import { unconfiguredSite } from '../../src/site/site.js';

/*
 * What a case becomes as one text for people: each resource once, reports whole, and a digest of every output, so that
 * no byte changes unseen. Where only a digest changes, the digests of the parts beside it tell where.
 */

/** Reports, resources and bundles of a prepared case. */
export function legible(prepared: PreparedCase): string {
  const submission = bundleOf(prepared.submission);
  const document = bundleOf(prepared.document);
  const labels = labelsOf([...document.entries, ...submission.entries]);
  const written = new Map<string, Loose>();
  // A resource that is sent otherwise than it stands in the document has what differs beside it.
  const listed = ({ head, entries }: ReadBundle) => [
    withLabels(head, labels),
    ...entries.map(({ id, resource, request }) => {
      const label = labels.get(id) ?? id;
      const before = written.get(id);
      if (before === undefined) written.set(id, resource);
      const other = before === undefined ? '' : withLabels(difference(before, resource), labels);
      return `${label}${request ? ` ${withLabels(request, labels).replace(once(label), 'POST if its identifier is new')}` : ''}${other}`;
    }),
  ];
  const kept = listed(document);
  const sent = listed(submission);
  const resources = [...written].map(
    ([id, resource]) => `${labels.get(id) ?? id} ${id} ${withLabels(lines(resource), labels)}`,
  );
  return [
    part('findings', findings(prepared)),
    ...Object.entries(prepared.reports).flatMap(([audience, { html, text }]) => [
      part(`report for ${audience}, text`, text),
      part(`report for ${audience}, page ${digest(html)}`, htmlParts(html)),
    ]),
    part('timeline', prepared.timeline),
    part(`submission ${digest(prepared.submission)}`, sent.join('\n')),
    part(`document ${digest(prepared.document)}`, kept.join('\n')),
    part('resources', resources.join('\n')),
  ].join('\n');
}

/** Elements that one form of a resource has otherwise than another, or not at all. */
function difference(one: Loose, other: Loose): string {
  const keys = [...new Set([...Object.keys(one), ...Object.keys(other)])];
  return keys
    .filter(key => compact(one[key]) !== compact(other[key]))
    .map(key => (key in other ? `\n   ${key}: ${inShort(lines(other[key], '    '))}` : `\n   without ${key}`))
    .join('');
}

/** What is long by its digest: it stands whole among the resources. */
const inShort = (text: string): string => (text.length > 1_500 ? `otherwise (${digest(text)})` : text);

const part = (title: string, text: string) => `== ${title}\n${text}\n`;

export const digest = (text: string | Uint8Array): string =>
  createHash('sha256').update(text).digest('hex').slice(0, 16);

function findings({ findings: all }: PreparedCase): string {
  return all
    .filter(f => f.severity !== 'information')
    .map(f => `${f.severity} ${f.code} ${f.path}\n  ${messageOf(f)}`)
    .join('\n');
}

/** Digest of each piece of a page that begins with a section, so that a changed one can be found. */
function htmlParts(html: string): string {
  return html
    .split(/(?=<(?:section|style|svg|h2)\b)/)
    .map(piece => `${digest(piece)} ${/^<[^>]*>/.exec(piece)?.[0] ?? ''}`)
    .join('\n');
}

interface ReadEntry {
  readonly id: string;
  readonly type: string;
  readonly resource: Loose;
  readonly request?: string;
}

interface ReadBundle {
  /** The bundle without its entries. */
  readonly head: string;
  readonly entries: readonly ReadEntry[];
}

type Loose = Readonly<Record<string, unknown>>;

function bundleOf(json: string): ReadBundle {
  const { entry, ...head } = parse(json) as Loose & { entry: readonly Loose[] };
  return {
    head: lines(head),
    entries: entry.map(({ fullUrl, resource, request, ...rest }) => ({
      id: String(fullUrl).replace('urn:uuid:', ''),
      ...typed(resource as Loose),
      ...((request !== undefined || Object.keys(rest).length > 0) && {
        request: asked({ ...(request as Loose | undefined), ...rest }),
      }),
    })),
  };
}

/** The label says the type. */
function typed({ resourceType, ...resource }: Loose): Pick<ReadEntry, 'type' | 'resource'> {
  return { type: String(resourceType), resource };
}

/** `POST Device ifNoneExist: …`. */
const asked = ({ method, url, ...rest }: Loose): string =>
  [`${method} ${url}`, ...Object.entries(rest).map(([key, value]) => `${key}: ${compact(value)}`)].join(' ');

/** The usual request: to create it unless the server has its identifier. */
const once = (label: string): string =>
  `POST ${label.split('/')[0]} ifNoneExist: "identifier=urn:site|${label}"`;

/** `Device/3` for the third device: ids are listed once, and a reference says what it leads to. */
function labelsOf(entries: readonly ReadEntry[]): ReadonlyMap<string, string> {
  const counts = new Map<string, number>();
  const labels = new Map<string, string>();
  for (const { id, type } of entries) {
    if (labels.has(id)) continue;
    const count = (counts.get(type) ?? 0) + 1;
    counts.set(type, count);
    labels.set(id, `${type}/${count}`);
  }
  return labels;
}

const uuid = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

const withLabels = (text: string, labels: ReadonlyMap<string, string>): string =>
  text
    .replace(uuid, id => labels.get(id) ?? id)
    .replace(/"urn:uuid:([A-Z]\w+\/\d+)"/g, '@$1')
    .replaceAll(`urn:uuid:${unconfiguredSite.namespace}`, 'urn:site')
    .replaceAll(`urn%3Auuid%3A${unconfiguredSite.namespace}`, 'urn:site');

const width = 130;

/** JSON with as much on a line as fits, digits as they were written, and long attachments and XHTML by digest. */
function lines(value: unknown, indent = ' '): string {
  const short = compact(value);
  if (indent.length + short.length <= width || typeof value !== 'object' || value === null) return short;
  if (isLosslessNumber(value) || isNarrative(value)) return short;
  const inner = `${indent} `;
  const rows = Array.isArray(value)
    ? value.map(item => lines(item, inner))
    : Object.entries(value).map(([key, item]) => `${key}: ${lines(item, inner)}`);
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  return `${open}\n${rows.map(row => `${indent}${row}\n`).join('')}${indent.slice(1)}${close}`;
}

function compact(value: unknown): string {
  if (isLosslessNumber(value)) return value.value;
  if (Array.isArray(value)) return `[${value.map(compact).join(', ')}]`;
  if (isNarrative(value)) return `${value.status} ${compact(value.div)}`;
  if (typeof value === 'object' && value !== null)
    return `{${Object.entries(value)
      .map(([key, item]) => `${key}: ${compact(item)}`)
      .join(', ')}}`;
  if (typeof value !== 'string') return String(value);
  if (/^[A-Za-z0-9+/=]{200,}$/.test(value))
    return `(attachment, ${Buffer.from(value, 'base64').length} bytes, ${digest(value)})`;
  if (value.startsWith('<div xmlns')) return `(XHTML ${digest(value)} ${JSON.stringify(words(value))})`;
  return JSON.stringify(value);
}

/** The beginning of what an XHTML text says. */
const words = (xhtml: string): string => {
  const text = xhtml
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
};

const isNarrative = (value: unknown): value is { status: string; div: string } =>
  typeof value === 'object' && value !== null && Object.keys(value).join() === 'status,div';
