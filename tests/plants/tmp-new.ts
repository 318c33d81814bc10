import { readFileSync } from 'node:fs';
import { messageOf } from '../../src/findings/finding.js';
import { foundIn, readBank } from './bank.js';
import { changesData, edited, spelt } from './edit.js';
import { assessParsed } from '../../src/pipeline/check.js';
import { parseCaseData } from '../../src/record/parse.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { parse } from 'yaml';
const CHECKED = Date.parse('2026-11-28T00:00:00Z');
const log = readFileSync('/tmp/h/plants.log', 'utf8');
for (const base of readBank()) {
  const before = new Set(foundIn(base.text).map(f => `${f.code} ${f.path} ${messageOf(f)}`));
  for (const m of [...base.mistakes, ...base.variants]) {
    if (!log.includes(`missed ${base.name} [${m.class}] ${m.say}`) && !log.includes(`false alarm ${base.name} [${m.class}] ${m.say}`)) continue;
    const text = spelt(base.text, m as never);
    const found = changesData(m as never) ? assessParsed(parseCaseData(edited(parse(text), m as never)), unconfiguredSite, undefined, CHECKED).findings : foundIn(text);
    console.log(`# ${base.name}: ${m.say}`);
    for (const f of found) { const k = `${f.code} ${f.path} ${messageOf(f)}`; if (!before.has(k)) console.log(`   ${f.severity} ${k.slice(0, 260)}`); }
  }
}
