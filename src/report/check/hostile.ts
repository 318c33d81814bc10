import { clean } from '../characters.js';
import type { ReportDocument } from '../view/nodes.js';

/** Every hostile text begins with it, so that it is found again. */
export const HOSTILE_MARK = 'zqhostile';

/** Ends every kind of place it could be put in: element, attribute, style, CDATA, comment, template. */
const HOSTILE = `${HOSTILE_MARK}</style></title></script>"'><script>alert(1)</script><img src=x onerror=alert(1)> onmouseover="x" {{constructor}} {{{raw}}} ]]> --> &lt;b&gt; \\22 ; } body { display: none } @import url(https://x.example); left \u202etfel a\u0000b ${'long'.repeat(25)}`;

/** Names that templates choose by, and those of the catalogue's words; everything else may be written by people. */
const FIXED: ReadonlySet<string> = new Set([
  'kind',
  'key',
  'mark',
  'audience',
  'language',
  'label',
  'caption',
  'columns',
]);

/** The document of a record in which everything that people wrote is an attack. */
export function hostileDocument(document: ReportDocument): ReportDocument {
  return clean(replaced(document));
}

function replaced<T>(value: T, name?: string): T;
function replaced(value: unknown, name = ''): unknown {
  if (typeof value === 'string') return FIXED.has(name) || value === '' ? value : HOSTILE;
  if (Array.isArray(value)) return value.map(child => replaced(child, name));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, child]) => [key, replaced(child, key)]));
}
