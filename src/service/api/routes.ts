import { addToRecordHandler, beginRecordHandler, MAX_BRINGING } from './bring-sources.js';
import {
  catalogueHandler,
  destinationsHandler,
  kitsHandler,
  questionnaireHandler,
  schemaHandler,
  settingsHandler,
} from './handlers.js';
import { decideHandler, outboxItemHandler, outboxListHandler, receiptHandler } from './outbox-handlers.js';
import type { Route } from './route.js';
import {
  eventsWanted,
  inLanguage,
  languageWanted,
  mergeWanted,
  prepareWanted,
  reportWanted,
  storeWanted,
} from './wanted.js';

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
  ...(
    [
      ['/intake/begin', beginRecordHandler],
      ['/intake/add', addToRecordHandler],
    ] as const
  ).map(
    ([path, answer]): Route => ({
      ...{ path, answer, right: 'enter', audit: 'look', takes: 'json', most: MAX_BRINGING },
    }),
  ),
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
