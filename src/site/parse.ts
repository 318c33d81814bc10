import { type Finding, finding, sortFindings } from '../findings/finding.js';
import { message } from '../findings/message.js';
import { findingsOf } from '../record/issues.js';
import { fieldsOf, wantsNumber } from '../record/keys.js';
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
    return { findings: sortFindings(placed(read.findings, read.locate)).map(asSetting) };
  if (isCase(read.tree)) return { findings: [notASite] };
  const result = siteSchema.safeParse(numbersAsNumbers(read.tree));
  if (result.success) return { site: result.data, findings: [] };
  const found = findingsOf(result.error.issues, read.tree, fieldsOf(siteSchema));
  return { findings: sortFindings(placed(found, read.locate)).map(asSetting) };
}

const isCase = (tree: unknown) =>
  typeof tree === 'object' &&
  tree !== null &&
  Object.hasOwn(tree, 'casetally') &&
  !Object.hasOwn(tree, 'casetallySite');

const notASite = finding(
  'site.setting',
  '',
  {
    message: message('setting.isCase'),
    fix: message('setting.isCaseFix'),
  },
  { line: 1, column: 1 },
);

/** The reader keeps numbers as text for the sake of their digits; where a setting is a plain number it becomes one. */
function numbersAsNumbers(tree: unknown, path: readonly PropertyKey[] = []): unknown {
  if (typeof tree === 'string')
    return /^(?:0|[1-9]\d{0,9})$/.test(tree) && wantsNumber(siteSchema, path) ? Number(tree) : tree;
  if (Array.isArray(tree)) return tree.map((item, index) => numbersAsNumbers(item, [...path, index]));
  if (typeof tree !== 'object' || tree === null) return tree;
  return Object.fromEntries(
    Object.entries(tree).map(([name, value]) => [name, numbersAsNumbers(value, [...path, name])]),
  );
}

/** Fields that hold a reference to a secret; someone may have written the secret itself there, so it is never quoted. */
const SECRET_FIELD = /(?:^|\.)(?:token|secret|password|key|user|ca|certificate)$/;

function asSetting(f: Finding): Finding {
  const place = {
    ...(f.line !== undefined && { line: f.line }),
    ...(f.column !== undefined && { column: f.column }),
  };
  if (SECRET_FIELD.test(f.path)) {
    const said = { message: message('setting.secret'), fix: message('setting.secretFix') };
    return finding('site.setting', f.path, said, place);
  }
  if (f.path.endsWith('.sha256') && f.code !== 'record.missing') {
    const said = { message: message('setting.digest'), fix: message('setting.digestFix') };
    return finding('site.setting', f.path, said, place);
  }
  const { code, params, remedy } = f;
  const said = {
    message: { key: `finding.${code}`, params },
    fix: remedy ?? { key: `remedy.${code}`, params },
  } as const;
  return finding('site.setting', f.path, said, place);
}
