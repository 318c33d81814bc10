import { message } from '../../findings/message.js';
import { readQuantity } from '../../record/quantity.js';
import { type Drug, drugTable } from '../../trade/drugs/table.js';
import type { LineNotes } from './table/bench.js';
import type { Clause } from './text/clauses.js';
import type { Token } from './text/tokens.js';

/** A drug that a clause names, contrast and flushing fluids aside, and the words that name it. */
export function drugIn({
  tokens,
}: Clause): { readonly drug: Drug; readonly tokens: readonly Token[] } | undefined {
  const words = tokens.filter(({ piece }) => piece?.is === 'word');
  for (const length of [3, 2, 1])
    for (let from = 0; from + length <= words.length; from++) {
      const some = words.slice(from, from + length);
      if (some.some(({ entry }) => entry !== undefined)) continue;
      const found = drugTable.find(some.map(({ text }) => text).join(' '));
      if (found?.how === 'listed' && !found.row.families.some(family => /contrast/.test(family)))
        return { drug: found.row, tokens: some };
    }
  return undefined;
}

/** Proposes the drug of a clause. What was given is asked for again unless drug, dose and route are all said. */
export function giveDrug(notes: LineNotes, clause: Clause, at: string | undefined, shared?: string): void {
  const found = drugIn(clause);
  if (!found) return;
  const { name } = found.drug;
  let dose: string | undefined;
  let strength: string | undefined;
  let route = shared;
  let purpose: string | undefined;
  for (const token of clause.tokens) {
    const { piece, entry, text } = token;
    if (found.tokens.includes(token)) continue;
    if (piece?.is === 'amount') {
      // A small g of a drug is grams, and so is a capital one.
      const amount = piece.unit === 'G' ? `${piece.value} g` : piece.amount;
      if (piece.unit === '%') strength = `${piece.value} %`;
      else if (dose === undefined && readQuantity(amount, ['dose', 'mass', 'activity', 'volume']).ok)
        dose = amount;
      else notes.unclear([token]);
    } else if (entry?.role === 'route') route = entry.route;
    else if (entry?.role === 'purpose' && (purpose === undefined || purpose === entry.purpose))
      purpose = entry.purpose;
    else if (entry?.role === 'doubt') {
      notes.doubt(message('line.open', { word: text }));
      if (entry.doubt === 'denied') return;
    } else if (
      piece?.is === 'number' ||
      entry === undefined ||
      !/^(?:filler|article|joint)$/.test(entry.role)
    ) {
      if (piece?.is !== 'time' && piece?.is !== 'mark' && !(entry?.role === 'act' && entry.act === 'inject'))
        notes.unclear([token]);
    }
  }
  if (dose === undefined) {
    notes.doubt(message('line.noDose', { drug: name }));
    return;
  }
  if (route === undefined) notes.doubt(message('line.noRoute', { drug: name }));
  notes.drugs.push({
    ...(at !== undefined && { at }),
    drug: name,
    dose,
    ...(strength !== undefined && { strength }),
    ...(route !== undefined && { route }),
    ...(purpose !== undefined && { for: purpose }),
  });
}
