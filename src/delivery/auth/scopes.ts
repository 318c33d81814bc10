/** What is done with each type of resource, as letters of SMART scopes in their order: `crus`. */
export type Needs = ReadonlyMap<string, string>;

const WHOLE: Readonly<Record<string, string>> = { read: 'rs', write: 'cud', '*': 'cruds' };

/**
 * The scopes that are needed and were not granted, as they are registered; empty where all were. A scope that is bound to
 * a search counts for nothing, since it grants a part alone. Both spellings are read, `system/Device.write` and
 * `system/Device.cud`. Source: SMART App Launch, scopes: https://hl7.org/fhir/smart-app-launch/scopes-and-launch-context.html
 */
export function scopesMissing(granted: string, needs: Needs): string[] {
  const given = granted.split(/\s+/).flatMap(scope => {
    const found = /^(?:system|user)\/(\*|[A-Za-z]+)\.([a-z]+|\*)$/.exec(scope);
    return found ? [{ type: found[1], letters: WHOLE[found[2] ?? ''] ?? found[2] ?? '' }] : [];
  });
  const has = (type: string, letter: string) =>
    given.some(one => (one.type === '*' || one.type === type) && one.letters.includes(letter));
  return [...needs].flatMap(([type, letters]) => {
    const missing = [...letters].filter(letter => !has(type, letter)).join('');
    return missing === '' ? [] : [`system/${type}.${missing}`];
  });
}

/** What a case needs of a type that is sent, or of one that is only looked up. */
export const NEEDS = { sent: 'crus', lookedUp: 'rs' } as const satisfies Record<string, string>;
