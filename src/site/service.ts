import { z } from 'zod';
import { SECRET_REFERENCE } from '../delivery/auth/secrets.js';
import { sessionSchema, signInSchema } from './sign-in.js';

/**
 * What a token of the service may be used for. check: check, prepare and print cases. send: take cases in. read: see the
 * outbox and receipts. outbox: retry, park and discard. register: ask the register who has which device inside.
 * enter: begin, read, change and discard drafts of cases. sign: sign a case.
 */
export const rights = ['check', 'send', 'read', 'outbox', 'register', 'enter', 'sign'] as const;
export type Right = (typeof rights)[number];

/** A name that may stand in a log and in a YAML key. */
export const TOKEN_NAME = /^[A-Za-z][\w-]{0,39}$/;

const named = z.strictObject({
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, 'the digest that casetally token new prints, 64 digits 0 to 9 and a to f'),
  rights: z
    .array(z.enum(rights))
    .min(1)
    .describe(
      'check: check, prepare and print cases; send: take cases in; read: see the outbox; outbox: retry, park and discard; register: ask the register of devices; enter: drafts of cases; sign: sign a case',
    ),
});

/** Settings of the service over HTTP. */
export const serviceSchema = z.strictObject({
  token: z
    .string()
    .regex(SECRET_REFERENCE, 'a reference, env:NAME or file:PATH; the secret itself never stands here')
    .optional()
    .describe('Where one bearer token with every right is: env:NAME or file:PATH'),
  tokens: z
    .record(z.string().regex(TOKEN_NAME, 'a letter, then letters, digits, _ or -, 40 at most'), named)
    .prefault({})
    .describe('Tokens by name, each with its digest and rights, as casetally token new prints them'),
  signIn: signInSchema.optional().describe('How people sign in: OpenID Connect at a provider'),
  sessions: sessionSchema.prefault({}).describe('How long people stay signed in'),
  proxies: z
    .array(z.union([z.ipv4(), z.ipv6(), z.cidrv4(), z.cidrv6()]))
    .prefault([])
    .describe(
      'Addresses of proxies, or networks of them, whose X-Forwarded-For is believed; that of nobody else is',
    ),
  work: z
    .strictObject({
      threads: z
        .number()
        .int()
        .min(1)
        .max(64)
        .optional()
        .describe(
          'Cases worked out at the same time; one fewer than processors when absent, 2 at least, 8 at most',
        ),
      waiting: z.number().int().min(0).max(10_000).default(100).describe('Cases that may wait for that'),
      seconds: z.number().int().min(1).max(600).default(30).describe('The most that one case may take'),
      waitSeconds: z
        .number()
        .int()
        .min(1)
        .max(600)
        .default(60)
        .describe('The most that one case may wait before it is begun'),
      megabytes: z
        .number()
        .int()
        .min(128)
        .max(16_384)
        .default(512)
        .describe('The most memory for objects of one thread'),
    })
    .prefault({})
    .describe('How much the service takes on at once; what is more is answered with 503'),
});
