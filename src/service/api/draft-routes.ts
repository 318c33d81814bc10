import {
  beginHandler,
  changesHandler,
  type DraftPorts,
  discardHandler,
  draftHandler,
  versionHandler,
  versionsHandler,
} from './draft-handlers.js';
import { listHandler, searchHandler } from './draft-lists.js';
import { patchHandler, putHandler } from './draft-saving.js';
import { closeHandler, reopenHandler, signHandler, takeBackHandler, toSignHandler } from './draft-sign.js';
import { takeInHandler } from './draft-take-in.js';
import type { ServicePorts } from './handlers.js';
import { type Reply, refusal } from './reply.js';
import type { Asked, PlainRoute } from './route.js';
import { storeWanted } from './wanted.js';

type Answer = (asked: Asked, ports: DraftPorts) => Reply | Promise<Reply>;

/** Answers from the drafts, where this service has them. */
const from =
  (answer: Answer) =>
  (asked: Asked, { drafts, site, clock, outbox }: ServicePorts): Reply | Promise<Reply> =>
    drafts
      ? answer(asked, {
          ...{ drafts: drafts.store, changes: drafts.changes, clock },
          ...{ timeZone: site.site.timeZone, outbox },
        })
      : refusal(404, 'not-found', 'This service keeps no drafts.');

const route = (
  method: NonNullable<PlainRoute['method']>,
  path: string,
  takes: PlainRoute['takes'],
  answer: Answer,
): PlainRoute => ({
  ...{ method, path, takes },
  right: 'enter',
  // As large as a case may be.
  most: 'a case',
  answer: from(answer),
});

/** Drafts of cases over HTTP. */
export const draftRoutes: readonly PlainRoute[] = [
  route('get', '/drafts', 'nothing', listHandler),
  { ...route('post', '/drafts/search', 'json', searchHandler), audit: 'look' },
  route('post', '/drafts', 'text', beginHandler),
  route('get', '/drafts/:id', 'nothing', draftHandler),
  route('patch', '/drafts/:id', 'json', patchHandler),
  route('put', '/drafts/:id', 'text', putHandler),
  route('get', '/drafts/:id/versions', 'nothing', versionsHandler),
  route('get', '/drafts/:id/versions/:n', 'nothing', versionHandler),
  route('get', '/drafts/:id/changes', 'nothing', changesHandler),
  route('post', '/drafts/:id/discard', 'json', discardHandler),
  ...(
    [
      ['close', 'enter', closeHandler],
      ['reopen', 'enter', reopenHandler],
      ['sign', 'sign', signHandler],
      ['take-back', 'sign', takeBackHandler],
    ] as const
  ).map(
    ([what, right, answer]): PlainRoute => ({
      ...({ method: 'post', path: `/drafts/:id/${what}`, takes: 'json' } as const),
      ...{ right, answer },
    }),
  ),
  {
    ...({ method: 'post', path: '/drafts/:id/to-sign', takes: 'json', audit: 'look' } as const),
    ...{ right: 'sign', answer: toSignHandler },
  },
  {
    ...({ method: 'post', path: '/drafts/:id/take-in', takes: 'json' } as const),
    right: 'send',
    answer: (asked, ports) => {
      const wanted = storeWanted(asked, ports);
      return 'status' in wanted ? wanted : takeInHandler(asked, ports, wanted);
    },
  },
];
