import type { Register } from '../../register/store/register.js';
import type { ServicePorts } from './handlers.js';
import {
  historyHandler,
  insideHandler,
  plansHandler,
  recallHandler,
  unlinkedHandler,
  unreviewedHandler,
} from './register-handlers.js';
import { type Reply, refusal } from './reply.js';
import type { Asked, Route } from './route.js';

/** Bytes of a question: a recall has many lines. */
const MAX_QUESTION = 200_000;

type Answer = (register: Register, asked: Asked, ports: ServicePorts) => Promise<Reply>;

/** Answers from the register, where the site keeps one. */
const from =
  (answer: Answer) =>
  (asked: Asked, ports: ServicePorts): Reply | Promise<Reply> =>
    ports.register
      ? answer(ports.register, asked, ports)
      : refusal(404, 'not-found', 'This site keeps no register.');

const list = (name: string, answer: Answer): Route => ({
  path: `/register/${name}`,
  right: 'register',
  takes: 'nothing',
  answer: from(answer),
});

/** What names a patient or a case is asked for in the body: addresses are written down on the way. */
const question = (name: string, answer: Answer): Route => ({
  path: `/register/${name}`,
  right: 'register',
  audit: 'look',
  takes: 'json',
  most: MAX_QUESTION,
  answer: from(answer),
});

/** What the register answers over HTTP; nothing of it changes the register. */
export const registerRoutes: readonly Route[] = [
  question('inside', (register, { body }) => insideHandler(body, register)),
  question('history', (register, { body }) => historyHandler(body, register)),
  question('recall', (register, { body }) => recallHandler(body, register)),
  ...(['due', 'overdue'] as const).map(what =>
    list(what, (register, { query }, { clock }) => plansHandler(what, query, register, clock)),
  ),
  list('unreviewed', (register, { query }, { clock }) => unreviewedHandler(query, register, clock)),
  list('unlinked', register => unlinkedHandler(register)),
];
