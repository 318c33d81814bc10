import { type Finding, finding } from '../findings/finding.js';
import { findingsOf } from '../record/issues.js';
import { keysAt } from '../record/keys.js';
import { placed } from '../record/parse.js';
import { decodeUtf8, readText } from '../record/read.js';
import { type Site, siteSchema } from './site.js';

/** Reads a site configuration from YAML or JSON; every fault is named with line and column, all at once. */
export function parseSite(input: string | Uint8Array): {
  readonly site?: Site;
  readonly findings: readonly Finding[];
} {
  const decoded = typeof input === 'string' ? { text: input } : decodeUtf8(input);
  if ('finding' in decoded) return { findings: [asSetting(decoded.finding)] };
  const read = readText(decoded.text);
  if (read.tree === undefined || read.findings.length > 0)
    return { findings: placed(read.findings, read.locate).map(asSetting) };
  const result = siteSchema.safeParse(numbersAsNumbers(read.tree));
  if (result.success) return { site: result.data, findings: [] };
  const found = findingsOf(result.error.issues, read.tree, path => keysAt(siteSchema, path));
  return { findings: placed(found, read.locate).map(asSetting) };
}

/** The reader keeps numbers as text for the sake of their digits; settings are plain numbers. */
function numbersAsNumbers(tree: unknown): unknown {
  if (typeof tree === 'string') return /^(?:0|[1-9]\d{0,9})$/.test(tree) ? Number(tree) : tree;
  if (Array.isArray(tree)) return tree.map(numbersAsNumbers);
  if (typeof tree !== 'object' || tree === null) return tree;
  return Object.fromEntries(Object.entries(tree).map(([name, value]) => [name, numbersAsNumbers(value)]));
}

function asSetting(f: Finding): Finding {
  return finding(
    'site.setting',
    f.path,
    { message: f.message, fix: f.remedy },
    {
      ...(f.line !== undefined && { line: f.line }),
      ...(f.column !== undefined && { column: f.column }),
    },
  );
}
