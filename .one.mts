import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { readLines } from '/work/wt/lines2/src/intake/lines/read.js';
import { piecesOf } from '/work/wt/lines2/src/intake/lines/pieces.js';
const [devs, ...lines] = process.argv.slice(2);
const d = parse(devs) as any;
const devices = Object.entries(d).map(([key, v]: any) => ({ key, kind: v.kind, size: v.size, diameter: v.diameter, length: v.length, description: v.description, parts: v.parts, inside: v.in ?? 0, count: v.count }));
if (process.env.P) for (const l of lines) console.log(JSON.stringify(piecesOf(l)));
for (const r of readLines(lines, { devices }).readings) { console.log(r.certainty, '|', r.line); for (const e of r.events) console.log('   ', JSON.stringify(e)); for (const e of r.drugs) console.log('   D', JSON.stringify(e)); if(Object.keys(r.devices).length) console.log('   N', JSON.stringify(r.devices)); for (const w of r.why) console.log('    ?', w.key, JSON.stringify(w.params)); }
