import { readFileSync } from 'node:fs';

/**
 * Displays by `system|code` that a file of a FHIR package in node_modules carries, the first that it gives each;
 * `FILE#ID` is the resource of that id in a Bundle.
 */
export function carried(place: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const add = (system: unknown, code: unknown, display: unknown): void => {
    if (typeof system !== 'string' || typeof code !== 'string' || typeof display !== 'string') return;
    const key = `${system}|${code}`;
    if (!found.has(key)) found.set(key, display);
  };
  const walk = (node: unknown, outer?: string): void => {
    if (Array.isArray(node)) for (const item of node) walk(item, outer);
    if (typeof node !== 'object' || node === null || Array.isArray(node)) return;
    const fields: Readonly<Record<string, unknown>> = { ...node };
    const named = fields['system'] ?? (fields['resourceType'] === 'CodeSystem' ? fields['url'] : undefined);
    const system = typeof named === 'string' ? named : outer;
    add(system, fields['code'], fields['display']);
    for (const child of Object.values(fields)) walk(child, system);
  };
  const [file, id] = place.split('#');
  const whole = JSON.parse(readFileSync(new URL(`../../node_modules/${file}`, import.meta.url), 'utf8'));
  const entries: readonly { readonly resource?: { readonly id?: string } }[] = whole.entry ?? [];
  const resource = id ? entries.find(entry => entry.resource?.id === id)?.resource : whole;
  walk(resource);
  // Some value sets of R4 give the displays of their codes in the table of their narrative alone.
  const shown = [...String(whole.text?.div).matchAll(/>(\d+)<\/a>\s*<\/td>\s*<td>([^<]+)<\/td>/g)];
  for (const { system, concept = [] } of whole.compose?.include ?? [])
    for (const { code } of concept) add(system, code, shown.find(([, one]) => one === code)?.[2]);
  return found;
}
