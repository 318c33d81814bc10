import { type Language, languageOf, languages } from '../../findings/languages.js';
import { type ReportFormat, reportFormats } from '../../pipeline/print-report.js';
import { isClock } from '../../record/time.js';
import { audiences } from '../../report/options.js';
import { papers } from '../../report/pdf/options.js';
import type { Wanted } from '../threads/case-job.js';
import { secretsOf } from '../threads/cases.js';
import { reportTypes } from '../threads/report-types.js';
import type { ServicePorts } from './handlers.js';
import { type Reply, refusal } from './reply.js';
import type { Asked } from './route.js';

/* What a request about a case wants, read from its address; what cannot be read is refused. */

export const no = (text: string) => refusal(400, 'invalid', text);

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
export function languageWanted(asked: Asked): { readonly word: Language | undefined } | Reply {
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
export function mergeWanted(asked: Asked): Wanted | Reply {
  const given = asked.query['kit'] ?? [];
  const kits = Array.isArray(given) ? given : [given];
  if (kits.length > 50 || !kits.every(name => typeof name === 'string' && name.trim() !== ''))
    return no('Write ?kit= with the name of a kit, once for each, 50 at most.');
  return inLanguage(asked, { do: 'merge', kits: kits as string[] });
}

export function prepareWanted(asked: Asked): Wanted | Reply {
  const audience = wordOf(asked, 'audience', audiences);
  if ('status' in audience) return audience;
  const draft = wordOf(asked, 'draft', ['yes']);
  if ('status' in draft) return draft;
  return inLanguage(asked, { do: 'prepare', audience: audience.word, draft: draft.word === 'yes' });
}

export function eventsWanted(asked: Asked): Wanted | Reply {
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

export function reportWanted(asked: Asked): Wanted | Reply {
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
