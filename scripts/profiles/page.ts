import { isProfile, type Raw, type RawElement, type RawProfile } from './source.js';

const cell = (text: string) =>
  text
    .replace(/\|/g, '\\|')
    .replace(/[<>]/g, c => (c === '<' ? '&lt;' : '&gt;'))
    .replace(/\s+/g, ' ');
const code = (text: string) => `\`${text}\``;
const last = (address: string) => address.slice(address.lastIndexOf('/') + 1);
const made = 'Made from `profiles/` by `npm run docs`.';

/** A page for each profile by its file name, and the page of contents. */
export function profilePages(sources: readonly Raw[]): Map<string, string> {
  const profiles = sources.filter(isProfile);
  const pages = new Map(profiles.map(profile => [`${profile.id}.md`, profilePage(profile, sources)]));
  pages.set('README.md', contents(profiles, sources));
  return pages;
}

function contents(profiles: readonly RawProfile[], sources: readonly Raw[]): string {
  const rows = profiles.map(p => `| [${p.title}](${p.id}.md) | ${p.type} | ${code(p.url)} |`);
  const others = sources.filter(raw => !isProfile(raw));
  const table = others.map(
    raw => `| ${raw.resourceType} | ${raw.title ?? raw.name ?? raw.id} | ${cell(raw.description ?? '')} |`,
  );
  return `# Profiles

What the resources of a case guarantee, as FHIR R4 profiles. ${made} \`casetally packages write FILE\` packs them, with snapshots and examples, as a FHIR package.

| profile | of | address |
|---|---|---|
${rows.join('\n')}

## Value sets, code systems and the rest

| resource | name | for |
|---|---|---|
${table.join('\n')}
`;
}

function profilePage(profile: RawProfile, sources: readonly Raw[]): string {
  const elements = profile.differential.element;
  const rules = elements.flatMap(element => (element.constraint ?? []).map(rule => ({ element, rule })));
  const sets = [
    ...new Set(elements.map(({ binding }) => binding?.valueSet).filter(url => url !== undefined)),
  ];
  return `${[
    `# ${profile.title}\n\n${profile.description}\n\n${made}`,
    `| | |\n|---|---|\n| address | ${code(profile.url)} |\n| type | ${profile.type} |\n| stands on | ${code(profile.baseDefinition)} |`,
    `## Elements\n\nWhat this profile adds to the one it stands on. **S**: must be supported.\n\n| element | number | S | rule |\n|---|---|---|---|\n${elements.slice(1).map(row).join('\n')}`,
    ...(rules.length === 0
      ? []
      : [
          `## Invariants\n\n| key | severity | says | expression |\n|---|---|---|---|\n${rules
            .map(
              ({ rule }) =>
                `| ${code(rule.key)} | ${rule.severity} | ${cell(rule.human)} | ${code(cell(rule.expression ?? ''))} |`,
            )
            .join('\n')}`,
        ]),
    ...(sets.length === 0 ? [] : [`## Value sets\n\n${sets.map(url => valueSet(url, sources)).join('\n')}`]),
  ].join('\n\n')}\n`;
}

function row(element: RawElement): string {
  const name = element.id.slice(element.id.indexOf('.') + 1);
  const number =
    element.min === undefined && element.max === undefined
      ? ''
      : `${element.min ?? ''}..${element.max ?? ''}`;
  return `| ${code(name)} | ${number} | ${element.mustSupport ? 'S' : ''} | ${cell(rulesOf(element).join('; '))} |`;
}

function rulesOf(element: RawElement): string[] {
  const values = Object.entries(element).flatMap(([key, value]) => {
    const kind = /^(fixed|pattern)[A-Z]/.exec(key)?.[1];
    return kind === undefined
      ? []
      : [`${kind} ${code(typeof value === 'string' ? value : JSON.stringify(value))}`];
  });
  const types = (element.type ?? []).map(({ code: type, profile, targetProfile }) => {
    const to = [...(profile ?? []), ...(targetProfile ?? [])].map(last);
    return to.length === 0 ? type : `${type} (${to.join(', ')})`;
  });
  const bound = element.binding;
  return [
    ...(element.short === undefined ? [] : [element.short]),
    ...(element['slicing'] === undefined ? [] : ['told apart below']),
    ...(types.length === 0 ? [] : [`only ${types.join(' or ')}`]),
    ...values,
    ...(bound ? [`${bound.strength}: ${last(bound.valueSet ?? '')}`] : []),
  ];
}

interface Compose {
  readonly include: readonly {
    readonly system?: string;
    readonly concept?: readonly { readonly code: string; readonly display?: string }[];
  }[];
}

function valueSet(url: string, sources: readonly Raw[]): string {
  const found = sources.find(raw => raw.url === url);
  const compose = found?.['compose'] as Compose | undefined;
  const codes = (compose?.include ?? []).map(({ system = '', concept }) =>
    concept
      ? `${concept.map(({ code: one, display }) => (display === undefined ? code(one) : `${code(one)} ${display}`)).join(', ')} (${code(system)})`
      : `all of ${code(system)}`,
  );
  return `- ${code(last(url))}: ${found?.description ?? ''} ${codes.join('; ')}`;
}
