/**
 * What people may do in a service: the one table of roles and the rights that each gives. Rights are those of
 * `service.ts`, which takes part of its schema from here.
 */
const rightsOf = {
  enter: ['check', 'enter', 'read'],
  sign: ['check', 'enter', 'read', 'sign'],
  send: ['check', 'send', 'read', 'outbox'],
  registry: ['register'],
  read: ['read'],
} as const;

export type Role = keyof typeof rightsOf;
export const roles = Object.keys(rightsOf) as [Role, ...Role[]];

type RightOfRole = (typeof rightsOf)[Role][number];

/** The rights of several roles together, each once. */
export const rightsOfRoles = (of: readonly Role[]): readonly RightOfRole[] => [
  ...new Set(of.flatMap(role => rightsOf[role])),
];

/**
 * The value of a claim by its name, or by a path of names with dots between them. A claim whose own name has dots, such
 * as `https://example.org/roles`, is looked for first. What an object has from elsewhere than itself is no claim.
 */
export function claimAt(claims: Readonly<Record<string, unknown>>, path: string): unknown {
  if (Object.hasOwn(claims, path)) return claims[path];
  return path
    .split('.')
    .reduce<unknown>(
      (at, name) =>
        typeof at === 'object' && at !== null && Object.hasOwn(at, name)
          ? (at as Record<string, unknown>)[name]
          : undefined,
      claims,
    );
}

/**
 * The roles that a claim gives. A text is one value, as a list of one would be: it is never split, since a value may
 * have spaces and commas. Whatever is neither gives none.
 */
export function rolesOfClaim(claim: unknown, table: Readonly<Record<string, readonly Role[]>>): Role[] {
  const values = Array.isArray(claim) ? (claim as unknown[]) : [claim];
  const given = values.flatMap(value =>
    typeof value === 'string' && Object.hasOwn(table, value) ? (table[value] ?? []) : [],
  );
  return roles.filter(role => given.includes(role));
}

/** Longest name that is kept. */
const MAX_NAME = 100;

/** A name that may stand in a log, on a page and in a signature: one line, no control characters, not endless. */
export function plainName(claim: unknown): string | undefined {
  if (typeof claim !== 'string') return undefined;
  const name = [
    ...claim
      .slice(0, 10 * MAX_NAME)
      .normalize('NFC')
      .replace(/[\p{C}\p{Zl}\p{Zp}]/gu, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  ]
    .slice(0, MAX_NAME)
    .join('')
    .trim();
  return name === '' ? undefined : name;
}
