import { type Match, NameTable } from '../names.js';
import { wordsOf } from '../words.js';
import type { CaseKind } from './kind.js';
import { otherCases } from './other.js';
import { vascularCases } from './vascular.js';

/** Kinds of case. */
export const caseKinds: readonly CaseKind[] = [...vascularCases, ...otherCases];

const table = new NameTable(caseKinds, {
  qualifiers:
    'percutaneous transcutaneous image guided guidance ultrasound sonographic ct computed tomography fluoroscopy fluoroscopic ' +
    'fluoroscopically cbct mri mr xray cone beam left right bilateral both side sided unilateral elective urgent ' +
    'emergency emergent diagnostic therapeutic repeat redo first initial primary second secondary third planned attempted ' +
    'transplant native adult paediatric neonatal child infant antegrade retrograde insertion placement tube catheter core needle ' +
    'coaxial transhepatic transperitoneal transfemoral transradial segment lobe upper lower superior inferior ' +
    'proximal distal anterior posterior new routine procedure staged session dialysis-independent unit endovascular ' +
    'interventional radiological metal plastic selective superselective double single balloon mid common external ' +
    'internal main native inserted',
  cuts: 'for with under via through by using due because after before from during',
  same: [
    ['insertion', 'placement', 'implantation', 'positioning', 'placing', 'inserting', 'placed'],
    ['exchange', 'change', 'replacement', 'swap', 'exchanging', 'changing'],
    ['removal', 'retrieval', 'extraction', 'explantation', 'removing'],
    ['drainage', 'drain', 'draining'],
    ['embolisation', 'embolotherapy', 'embolising'],
    ['angioplasty', 'pta'],
    ['stent', 'stenting', 'stented'],
    ['angiography', 'angiogram', 'arteriography', 'arteriogram'],
    ['venography', 'venogram', 'phlebography', 'phlebogram'],
    ['check', 'inspection'],
    ['tumour', 'tumor', 'neoplasm'],
  ],
});

/** Marks of a text that names more than one procedure. */
const several = /\band\b|\bplus\b|[+&/]/i;

/** What a kind of case as written means: one row, or several where it names several procedures. */
export interface CaseMatch {
  readonly rows: readonly CaseKind[];
  readonly how: Match<CaseKind>['how'];
  /** Procedures named beside those that no row is known for. */
  readonly unread: readonly string[];
}

/** The rows of a kind of case as people write it; undefined when none is known. */
export function caseKindNamed(kind: string): CaseMatch | undefined {
  const whole = table.find(kind);
  if (whole && (whole.how === 'listed' || !several.test(kind)))
    return { rows: [whole.row], how: whole.how, unread: [] };
  const parts = kind
    .split(/\band\b|\bplus\b|[+&/,;]/i)
    .map(part => part.trim())
    .filter(part => wordsOf(part).length > 0);
  if (parts.length > 1) {
    const found = parts.map(part => ({ part, match: table.find(part) }));
    const rows = [...new Set(found.flatMap(({ match }) => (match ? [match.row] : [])))];
    const unread = found.filter(({ match }) => !match).map(({ part }) => part);
    if (rows.length > 0) return { rows, how: 'qualified', unread };
  }
  return whole && { rows: [whole.row], how: whole.how, unread: [] };
}

/** The one row of a kind of case; undefined where it names none, or several. */
export function caseRow(kind: string): CaseKind | undefined {
  const found = caseKindNamed(kind);
  return found && found.rows.length === 1 && found.unread.length === 0 ? found.rows[0] : undefined;
}

/** Whether two texts name the same kind of case: by their words, or by their row. */
export function sameCaseKind(a: string, b: string): boolean {
  const words = (text: string) => [...wordsOf(text)].sort().join(' ');
  const row = caseRow(a);
  return words(a) === words(b) || (row !== undefined && row === caseRow(b));
}
