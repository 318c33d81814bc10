import { z } from 'zod';
import { SECRET_REFERENCE } from '../delivery/auth/secrets.js';
import { roles } from './roles.js';

const LOOPBACK = /^http:\/\/(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?(?:\/|$)/;

/** Passwords and codes go by it: encrypted, or within one machine. */
const address = z
  .url()
  .refine(
    url => url.startsWith('https://') || LOOPBACK.test(url),
    'must begin with https:// (http:// on this machine only)',
  )
  .refine(url => !/[?#]/.test(url), 'has a query or a fragment');

/** The end of the address that a provider leads people back to. */
export const BACK = '/sign-in/back';

const claim = z.string().trim().min(1).max(200);

/** How people sign in by OpenID Connect. */
export const signInSchema = z.strictObject({
  issuer: address.describe('Address of the identity provider, as it names itself'),
  clientId: z.string().trim().min(1).max(500),
  clientSecret: z
    .string()
    .regex(SECRET_REFERENCE, 'a reference, env:NAME or file:PATH; the secret itself never stands here')
    .optional()
    .describe('Where the secret of the client is; absent for a public client'),
  redirect: address
    .refine(url => url.endsWith(BACK), `must end with ${BACK}`)
    .describe(
      `Address of ${BACK} as browsers see it, also registered at the provider; a path before it is that of the proxy`,
    ),
  scope: z
    .string()
    .regex(/^openid( [\x21\x23-\x5b\x5d-\x7e]+)*$/, 'must begin with openid')
    .default('openid profile')
    .describe('What the provider is asked for'),
  nameClaim: claim.default('name').describe('Claim that holds the name of the person'),
  rolesClaim: claim
    .default('roles')
    .describe('Claim that holds what gives roles, or a path to it such as realm_access.roles'),
  roles: z
    .record(z.string().min(1), z.array(z.enum(roles)).min(1))
    .describe(
      'Roles by the value of that claim; whoever has none of them gets in nowhere. Roles: enter, sign, send, registry, read',
    ),
});

export type SignIn = z.output<typeof signInSchema>;

/** How long somebody stays signed in, whatever the way. */
export const sessionSchema = z.strictObject({
  hours: z.number().min(0.1).max(24).default(10).describe('Longest that somebody stays signed in'),
  idleMinutes: z
    .number()
    .int()
    .min(1)
    .max(1_440)
    .default(60)
    .describe('Ends a session that nothing was asked with for so long'),
  freshMinutes: z
    .number()
    .int()
    .min(1)
    .max(60)
    .default(5)
    .describe('How long a sign-in counts as fresh, as signing a case may ask'),
});

export type SessionLimits = z.output<typeof sessionSchema>;
