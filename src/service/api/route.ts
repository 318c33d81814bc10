import type { Right } from '../../site/service.js';
import type { Wanted } from '../threads/case-job.js';
import type { Audited } from './auditing.js';
import type { Caller } from './guard.js';
import type { ServicePorts } from './handlers.js';
import type { Reply } from './reply.js';

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
