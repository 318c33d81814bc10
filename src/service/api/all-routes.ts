import { fhirRoutes } from '../fhir/routes.js';
import { draftRoutes } from './draft-routes.js';
import { registerRoutes } from './register-routes.js';
import type { PlainRoute, Route } from './route.js';
import { routes } from './routes.js';

/** How an address is asked for. */
export type Method = NonNullable<PlainRoute['method']>;

/** Every route behind the guard with its method, in the order in which they are told. */
export const allRoutes: readonly { readonly method: Method; readonly route: Route }[] = [
  ...routes,
  ...draftRoutes,
  ...registerRoutes,
  ...fhirRoutes,
].map(route => {
  const own = 'method' in route ? route.method : undefined;
  return { method: own ?? (route.takes === 'nothing' ? 'get' : 'post'), route };
});

/** Addresses that no row of the routes has, since nobody needs a token for them. */
const OPEN = ['healthz', 'openapi.json'];

/** Addresses with their version; without it they stay what they are in this one. */
export const VERSIONED = new RegExp(
  `^/v1/(?:${[...new Set([...allRoutes.map(({ route }) => route.path.split('/')[1] ?? ''), ...OPEN])]
    .map(name => name.replace(/[.$]/g, '\\$&'))
    .join('|')})(?=[/?]|$)`,
);
