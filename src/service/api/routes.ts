import { z } from 'zod';
import { type Language, languageOf, languages } from '../../findings/languages.js';
import { type ReportFormat, reportFormats } from '../../pipeline/print-report.js';
import { isClock } from '../../record/time.js';
import { audiences } from '../../report/options.js';
import { papers } from '../../report/pdf/options.js';
import type { Right } from '../../site/service.js';
import type { Wanted } from '../threads/case-job.js';
import { secretsOf } from '../threads/cases.js';
import { reportTypes } from '../threads/report-types.js';
import type { Audited } from './auditing.js';
import type { Caller } from './guard.js';
import {
  catalogueHandler,
  destinationsHandler,
  kitsHandler,
  questionnaireHandler,
  type ServicePorts,
  schemaHandler,
  settingsHandler,
} from './handlers.js';
import { decideHandler, outboxItemHandler, outboxListHandler, receiptHandler } from './outbox-handlers.js';
import { type Reply, refusal } from './reply.js';

/** What a route is asked with. */
export interface Asked {
  readonly query: Readonly<Record<string, unknown>>;
  readonly params: Readonly<Record<string, string>>;
  /** Parsed JSON, where the route takes it. */
  readonly body: unknown;
  readonly accept: string | undefined;
  header(name: string): string | undefined;
  readonly caller: Caller;
}

/** One address of the service behind the guard. */
export type Route = PlainRoute | CaseRoute;

interface RouteBase {
  readonly path: string;
  /** What a token needs for it; any token will do where it is absent. */
  readonly right?: Right;
  /** How it stands in the audit trail, where the right and the method do not say (`auditedAs`). */
  readonly audit?: Audited;
}

export interface PlainRoute extends RouteBase {
  /** `text` is YAML or JSON that is not parsed. */
  readonly takes: 'nothing' | 'json' | 'text';
  /** GET for what takes nothing, POST for the rest, unless it is said. */
  readonly method?: 'get' | 'post' | 'patch' | 'put';
  /** Bytes that a body may have, where that is not those of a decision. */
  readonly most?: number | 'a case';
  readonly answer: (asked: Asked, ports: ServicePorts) => Reply | Promise<Reply>;
}

interface CaseRoute extends RouteBase {
  readonly takes: 'case';
  /** Bytes that a body may have, where that is not those of a case, its parts or a dose report. */
  readonly most?: number;
  /** What is to be done with the case of the body, or why the request is refused. */
  readonly wanted: (asked: Asked, ports: ServicePorts) => Wanted | Reply;
}

const no = (text: string) => refusal(400, 'invalid', text);

/** A parameter of the query that is one of some words, or absent; a refusal for anything else. */
function wordOf<W extends string>(
  { query }: Asked,
  name: string,
  words: readonly W[],
): { readonly word: W | undefined } | Reply {
  const given = query[name];
  const word = words.find(one => one === given);
  return given === undefined || word !== undefined
    ? { word }
    : no(`Write ?${name}= with ${words.join(', ')}, or nothing.`);
}

/** The language of `?language=`, a tag with a region included; a refusal for one that is not there. */
function languageWanted(asked: Asked): { readonly word: Language | undefined } | Reply {
  const tag = asked.query['language'];
  const language = typeof tag === 'string' ? languageOf(tag) : undefined;
  return language ? { word: language } : wordOf(asked, 'language', languages);
}

/** What a request wants, told the language that its answer is to be in. */
export function inLanguage<T extends object>(
  asked: Asked,
  wanted: T,
): (T & { readonly language?: Language }) | Reply {
  const language = languageWanted(asked);
  if ('status' in language) return language;
  return { ...wanted, ...(language.word && { language: language.word }) };
}

/** Kits by name, one `?kit=` each. */
function mergeWanted(asked: Asked): Wanted | Reply {
  const given = asked.query['kit'] ?? [];
  const kits = Array.isArray(given) ? given : [given];
  if (kits.length > 50 || !kits.every(name => typeof name === 'string' && name.trim() !== ''))
    return no('Write ?kit= with the name of a kit, once for each, 50 at most.');
  return inLanguage(asked, { do: 'merge', kits: kits as string[] });
}

function prepareWanted(asked: Asked): Wanted | Reply {
  const audience = wordOf(asked, 'audience', audiences);
  if ('status' in audience) return audience;
  const draft = wordOf(asked, 'draft', ['yes']);
  if ('status' in draft) return draft;
  return inLanguage(asked, { do: 'prepare', audience: audience.word, draft: draft.word === 'yes' });
}

function eventsWanted(asked: Asked): Wanted | Reply {
  const accept = wordOf(asked, 'accept', ['yes']);
  if ('status' in accept) return accept;
  const { at } = asked.query;
  if (at !== undefined && (typeof at !== 'string' || !isClock(at)))
    return no('Write ?at= with a time such as 09:04, or nothing.');
  return inLanguage(asked, { do: 'events', at, accept: accept.word === 'yes' });
}

/** The form that `?format=` names, else the first that `Accept` lets pass; undefined where none is. */
function formatOf(named: ReportFormat | undefined, accept = '*/*'): ReportFormat | undefined {
  if (named) return named;
  const ranges = accept
    .split(',')
    .map(part => {
      const [range = '', ...params] = part
        .trim()
        .toLowerCase()
        .split(/\s*;\s*/);
      const q = params.find(param => param.startsWith('q='));
      return { range, weight: q === undefined ? 1 : Number(q.slice(2)) };
    })
    .filter(({ weight }) => weight > 0)
    .sort((a, b) => b.weight - a.weight);
  for (const { range } of ranges) {
    const found = reportFormats.find(format => {
      const type = reportTypes[format].type.replace(/;.*/, '');
      return range === type || range === '*/*' || range === `${type.split('/')[0]}/*`;
    });
    if (found) return found;
  }
  return undefined;
}

function reportWanted(asked: Asked): Wanted | Reply {
  const audience = wordOf(asked, 'audience', audiences);
  if ('status' in audience) return audience;
  const named = wordOf(asked, 'format', reportFormats);
  if ('status' in named) return named;
  const paper = wordOf(asked, 'paper', papers);
  if ('status' in paper) return paper;
  const language = languageWanted(asked);
  if ('status' in language) return language;
  const draft = wordOf(asked, 'draft', ['yes']);
  if ('status' in draft) return draft;
  const format = formatOf(named.word, asked.accept);
  if (!format)
    return refusal(
      406,
      'not-supported',
      'A report is written as text/plain, text/html or application/pdf: name one in Accept or as ?format=text, html or pdf.',
    );
  return {
    do: 'report',
    report: {
      audience: audience.word ?? 'record',
      format,
      ...(paper.word && { paper: paper.word }),
      ...(language.word && { language: language.word }),
      draft: draft.word === 'yes',
    },
  };
}

export function storeWanted(asked: Asked, { site, secrets }: ServicePorts): Wanted | Reply {
  const { to } = asked.query;
  if (to !== undefined && typeof to !== 'string') return no('Write ?to= with one destination, or nothing.');
  return inLanguage(asked, { do: 'store', to, secrets: secretsOf(site, secrets) });
}

export const begun = z.strictObject({
  case: z.string().trim().min(1).max(200).optional(),
  date: z.iso.date().optional(),
  order: z.string().trim().min(1).max(200).optional(),
  from: z.string().max(200).optional(),
  kits: z.array(z.string().max(200)).max(50).optional(),
});

/** POST /intake/begin: what a record begins with stands in the body, since an order's number leads to a patient. */
function beginRecordHandler(asked: Asked, { cases, site, secrets }: ServicePorts): Reply | Promise<Reply> {
  const read = begun.safeParse(asked.body);
  if (!read.success)
    return no(
      'Send {"order": number, "from": destination, "kits": names, "case": number, "date": day}, each or none.',
    );
  const { kits = [], ...given } = read.data;
  const named = { case: given.case, date: given.date, order: given.order, from: given.from, kits };
  const wanted = inLanguage(asked, { do: 'begin' as const, ...named, secrets: secretsOf(site, secrets) });
  if ('status' in wanted) return wanted;
  const job = { body: new Uint8Array(), type: '', maxBytes: 0, wanted };
  return cases.ask(job, new AbortController().signal);
}

/** Addresses of cases and the outbox; those of the register stand beside them. */
export const routes: readonly Route[] = [
  { path: '/schema', takes: 'nothing', answer: () => schemaHandler() },
  { path: '/settings', right: 'check', takes: 'nothing', answer: (_asked, ports) => settingsHandler(ports) },
  {
    path: '/questionnaire',
    takes: 'nothing',
    answer: (_asked, ports) => questionnaireHandler(ports),
  },
  { path: '/destinations', takes: 'nothing', answer: (_asked, ports) => destinationsHandler(ports) },
  {
    path: '/outbox',
    right: 'read',
    takes: 'nothing',
    answer: ({ query }, { outbox }) => outboxListHandler(query['state'], outbox),
  },
  {
    path: '/outbox/:id',
    right: 'read',
    takes: 'nothing',
    answer: (asked, { outbox }) => {
      const language = languageWanted(asked);
      return 'status' in language
        ? language
        : outboxItemHandler(asked.params['id'] ?? '', outbox, language.word);
    },
  },
  {
    path: '/outbox/:id/receipt',
    right: 'read',
    takes: 'nothing',
    answer: ({ params }, { outbox }) => receiptHandler(params['id'] ?? '', outbox),
  },
  ...(['retry', 'park', 'discard'] as const).map(
    (what): Route => ({
      path: `/outbox/:id/${what}`,
      right: 'outbox',
      takes: 'json',
      answer: ({ params, body, caller }, { outbox, clock }) =>
        decideHandler(params['id'] ?? '', what, body, { caller, outbox, clock }),
    }),
  ),
  {
    path: '/cases/check',
    right: 'check',
    takes: 'case',
    wanted: asked => inLanguage(asked, { do: 'check' }),
  },
  {
    path: '/intake/begin',
    right: 'enter',
    audit: 'look',
    takes: 'json',
    answer: (asked, ports) => beginRecordHandler(asked, ports),
  },
  {
    path: '/devices/catalogue',
    right: 'check',
    takes: 'json',
    answer: ({ body }, ports) => catalogueHandler(body, ports),
  },
  { path: '/intake/kits', right: 'check', takes: 'nothing', answer: (_asked, ports) => kitsHandler(ports) },
  { path: '/intake/merge', right: 'check', takes: 'case', wanted: mergeWanted },
  {
    path: '/dose/check',
    right: 'check',
    takes: 'case',
    wanted: asked => inLanguage(asked, { do: 'dose' }),
  },
  { path: '/cases/events', right: 'check', takes: 'case', wanted: eventsWanted },
  {
    path: '/cases/trays',
    right: 'check',
    takes: 'case',
    wanted: asked => inLanguage(asked, { do: 'trays' }),
  },
  {
    path: '/cases/from-response',
    right: 'check',
    takes: 'case',
    wanted: asked => inLanguage(asked, { do: 'from-response' }),
  },
  { path: '/cases/prepare', right: 'check', audit: 'export', takes: 'case', wanted: prepareWanted },
  { path: '/cases/report', right: 'check', audit: 'export', takes: 'case', wanted: reportWanted },
  { path: '/cases', right: 'send', takes: 'case', wanted: storeWanted },
];
