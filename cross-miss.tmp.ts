import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { assess } from './src/clinical/assess.js';
import { messageOf } from './src/findings/finding.js';
import { recordSchema } from './src/record/schema/record.js';
const ABS = /lab-missing|hold-unknown|not-asked|not-assessed|not-recorded|grade-missing|without-aftercare|capped-without|criterion-value|without-earlier|skin-review-missing/;
const UNREAD = /^(?:team|images|findings|advice|conclusion|report|acknowledged|specimens|\$schema|case\.(?:organization|location|order|encounter|accession))\b|\.(?:codes|note|maker|model|reference|description|label|lot|serial|udi|mri|parts|fixedBy|result|image|specimen|by|guidance|text)\b/;
type T = Record<string, unknown>;
const paths = (v: unknown, p: (string|number)[] = []): (string|number)[][] => { const h = p.length ? [p] : []; if (Array.isArray(v)) return [...h, ...v.flatMap((e,i)=>paths(e,[...p,i]))]; if (v && typeof v === 'object') return [...h, ...Object.entries(v).flatMap(([k,e])=>paths(e,[...p,k]))]; return h; };
const seen = new Set<string>();
for (const f of readdirSync('examples').filter(n => /\.(yaml|json)$/.test(n) && !['site.yaml','mistaken.yaml'].includes(n))) {
  const tree = parse(readFileSync('examples/'+f,'utf8')) as T;
  const sch = (t: any) => recordSchema({ date: t.case?.date, timeZone: t.case?.timeZone, started: t.case?.started });
  const s0 = sch(tree);
  const codes = (t: T, s = s0) => { const r = s.safeParse(t); return r.success ? assess(r.data).findings.filter(x => x.code.startsWith('clinical.')) : undefined; };
  const whole = new Set(codes(tree)?.map(x => x.code));
  for (const p of paths(tree).filter(p => !UNREAD.test(p.join('.')))) {
    const c = structuredClone(tree); let at: any = c; for (const st of p.slice(0,-1)) at = at[st]; const l = p.at(-1)!; if (Array.isArray(at)) at.splice(Number(l),1); else delete at[l];
    for (const x of codes(c, p[0]==='case' ? sch(c) : s0) ?? []) { if (whole.has(x.code) || ABS.test(x.code)) continue; const k = x.code+' '+p.join('.').replace(/\d+/g,'N'); if (seen.has(k)) continue; seen.add(k); console.log(f, 'without', p.join('.'), x.code, messageOf(x)); }
  }
}
