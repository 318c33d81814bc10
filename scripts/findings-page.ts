import { catalogue } from '../src/findings/catalogue.js';

const cell = (text: string) =>
  text
    .replace(/\|/g, '\\|')
    .replace(/[<>]/g, c => (c === '<' ? '&lt;' : '&gt;'))
    .replace(/\s+/g, ' ');

/** The page of all findings: one table an area, from the catalogue and nothing else. */
export function findingsPage(): string {
  const areas = new Map<string, string[]>();
  for (const [code, entry] of Object.entries(catalogue)) {
    const area = code.split('.')[0] ?? '';
    const row = `| \`${code}\` | ${entry.severity} | ${cell(entry.message)} | ${cell(entry.remedy)} | ${cell(entry.basis)} |`;
    areas.set(area, [...(areas.get(area) ?? []), row]);
  }
  const tables = [...areas].map(
    ([area, rows]) =>
      `## ${area}\n\n| code | severity | message | remedy | basis |\n|---|---|---|---|---|\n${rows.sort().join('\n')}\n`,
  );
  return `# Findings\n\nEverything Casetally can say. Made from the message catalogue by \`npm run docs\`; words in braces are filled in. Severity and basis may differ for one finding where the site's own limit applies.\n\n${tables.join('\n')}`;
}
