import { inOrder } from '../../devices/tally/state.js';
import type { Printer } from '../print/printer.js';
import { absent, fact, facts, said, section, table } from './blocks.js';
import type { Block, Fact, Section } from './model.js';
import { sentence } from './sentence.js';

function access(p: Printer): Block {
  const list = p.record.access ?? [];
  if (list.length === 0) return facts(p, undefined, [fact(p, 'access', absent(p, true))]);
  return table(
    p,
    'table.access',
    ['site', 'approach', 'guidance', 'closure'],
    list.map((entry, index) => ({
      key: `access[${index}]`,
      cells: [
        [p.sided(entry.site, entry.side), entry.note],
        entry.approach ?? null,
        [
          entry.guidance && p.list(entry.guidance.map(guidance => p.say(`guidance.${guidance}`))),
          entry.passes === undefined ? undefined : p.plural('access.passes', String(entry.passes)),
        ],
        entry.closure && p.thing(entry.closure),
      ],
    })),
  );
}

/** Ways in on few lines: where, which side, and how each was closed. */
export function waysIn(p: Printer): Fact {
  const list = p.record.access ?? [];
  if (list.length === 0) return fact(p, 'access', absent(p, true));
  const lines = list.map(({ site, side, closure }) => {
    const where = p.sided(site, side);
    const closed = closure && p.say('field', { label: p.say('column.closure'), value: p.thing(closure) });
    return closed === undefined ? where : `${where}; ${closed}`;
  });
  return fact(p, 'access', said(...lines));
}

/** Events in the order of time; those of the same time in the order of the record. */
function timeline(p: Printer): Block {
  const list = inOrder(p.record);
  if (list.length === 0) return facts(p, undefined, [fact(p, 'timeline', absent(p, true))]);
  return table(
    p,
    'table.timeline',
    ['time', 'happened'],
    list.map(({ event, path }) => ({
      key: path,
      cells: [p.moment(event.at), sentence(p, event)],
      alert: event.state === 'part missing' || event.do === 'fracture' || event.do === 'lose',
    })),
  );
}

export function techniqueSection(p: Printer): Section {
  return section(p, 'technique', [access(p), timeline(p)]);
}
