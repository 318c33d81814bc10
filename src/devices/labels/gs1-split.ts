import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { anyOf, message, type Param, quoted } from '../../findings/message.js';
import { elementNamed } from './element.js';
import type { Gs1Element } from './gs1-readings.js';
import { possibleReadings } from './gs1-readings.js';
import type { Gs1Entry } from './gs1-table.js';
import { gs1Table, identifierAt } from './gs1-table.js';
import type { Source } from './source.js';
import { GS, shown, sliceSource, withoutSpaces } from './source.js';

/** A label taken apart into its elements, before their values are looked at. */
export interface Gs1Split {
  readonly elements: Gs1Element[];
  readonly findings: Finding[];
  /** Whole readings, when separators were lost and more than one is possible. */
  readonly readings?: Gs1Element[][];
}

/** Elements in bracketed form. */
export function bracketed(elements: readonly Gs1Element[]): string {
  return elements.map(({ entry, value }) => `(${entry.ai})${value.text}`).join('');
}

/**
 * Takes apart the human-readable form, `(01)…(17)…` or with braces. Brackets within a value that hold no
 * application identifier belong to the value; brackets that hold two to four digits never do.
 *
 * @param source begins with a bracket or brace
 */
export function splitBracketed(source: Source, path: string): Gs1Split {
  const findings: Finding[] = [];
  const elements: Gs1Element[] = [];
  const marks = [...source.text.matchAll(/\(\d{2,4}\)|\{\d{2,4}\}/g)];
  marks.forEach((mark, index) => {
    const entry = gs1Table.get(mark[0].slice(1, -1));
    if (entry === undefined) {
      const at = `${source.at(mark.index)}`;
      findings.push(finding('label.unknown-identifier', path, { at, found: mark[0] }));
      return;
    }
    const start = mark.index + mark[0].length;
    const read = printedValue(sliceSource(source, start, marks[index + 1]?.index), entry, path);
    elements.push({ entry, value: read.value });
    findings.push(...read.findings);
  });
  if (marks[0]?.index !== 0) {
    const params = {
      at: `${source.at(0)}`,
      found: shown(source.text[0]),
      expected: message('char.identifier'),
    };
    findings.unshift(finding('label.structure', path, params));
  }
  return { elements, findings };
}

/** A printed value without the spaces and separators around it; says where a bracket seems damaged. */
function printedValue(source: Source, entry: Gs1Entry, path: string): { value: Source; findings: Finding[] } {
  const what = elementNamed(entry.name);
  const lead = source.text.length - source.text.trimStart().length;
  const value = sliceSource(source, lead, lead + source.text.trim().length);
  const damaged = damagedBracket(value.text);
  const findings: Finding[] = [];
  if (damaged !== undefined) {
    const params = { what, at: `${value.at(damaged.index)}`, found: damaged.text };
    findings.push(finding('label.bracket', path, params));
  }
  const digitsOnly = entry.components.every(component => component.type === 'N');
  if (digitsOnly && / /.test(value.text)) {
    findings.push(finding('label.spaces', path, { what, at: `${value.at(0)}` }));
    return { value: withoutSpaces(value), findings };
  }
  return { value, findings };
}

/**
 * What looks like the brackets of an identifier with one character spoilt: `(2x)`, `(21x`, `x21)`, `(21}`.
 * A value may hold brackets, so this needs the shape of an identifier, not just a bracket.
 */
function damagedBracket(text: string): { index: number; text: string } | undefined {
  const inside = /[({](?=[^)}]*\d)[0-9A-Za-z]{2,4}[)}]/.exec(text);
  if (inside !== null) return { index: inside.index, text: inside[0] };
  for (const match of text.matchAll(/[({]\d{2,4}/g)) {
    if (identifierAt(match[0], 1) !== undefined) return { index: match.index, text: match[0] };
  }
  for (const match of text.matchAll(/\d{2,4}[)}]/g)) {
    const before = text.slice(0, match.index);
    const open = Math.max(before.lastIndexOf('('), before.lastIndexOf('{'));
    const closed = Math.max(before.lastIndexOf(')'), before.lastIndexOf('}'));
    if (open <= closed) return { index: match.index, text: match[0] };
  }
  return undefined;
}

/** Takes apart what a scanner sends: element strings, separated where the standard asks for it. */
export function splitRaw(source: Source, today: string, reliable: boolean, path: string): Gs1Split {
  const { text } = source;
  const elements: Gs1Element[] = [];
  const findings: Finding[] = [];
  const separated = reliable || text.includes(GS, 1);
  // With one more separator every value ends before one.
  const ended = text + GS;
  let i = 0;
  while (i < text.length) {
    if (text[i] === GS) {
      i += 1;
      continue;
    }
    const entry = identifierAt(text, i);
    if (entry === undefined) {
      const found = quoted(text.slice(i, Math.min(i + 4, ended.indexOf(GS, i))));
      findings.push(finding('label.unknown-identifier', path, { at: `${source.at(i)}`, found }));
      break;
    }
    const start = i + entry.ai.length;
    const stop = ended.indexOf(GS, start);
    const fixed = entry.min === entry.max;
    const end = fixed ? Math.min(start + entry.max, stop) : stop;
    if (fixed || (separated && end - start <= entry.max)) {
      elements.push({ entry, value: sliceSource(source, start, end) });
      i = end;
      continue;
    }
    const { ways, complete } = possibleReadings(source, start, stop, entry, elements, today);
    const [only] = ways;
    if (ways.length > 1) {
      const n = `${ways.length}`;
      const count = complete ? n : message('expected.orMore', { n });
      const where = { what: elementNamed(entry.name), at: `${source.at(start)}` };
      return ambiguous({ elements, findings }, ways, { ...where, count }, path);
    }
    if (only === undefined) elements.push({ entry, value: sliceSource(source, start, stop) });
    else elements.push(...only);
    if (only !== undefined && only.length > 1) {
      const params = {
        what: elementNamed(entry.name),
        at: `${source.at(start)}`,
        reading: bracketed(elements),
      };
      findings.push(finding('label.separator-lost', path, params));
    }
    i = stop;
  }
  return { elements, findings };
}

function ambiguous(
  { elements, findings }: Gs1Split,
  ways: Gs1Element[][],
  where: { what: Param; at: string; count: Param },
  path: string,
): Gs1Split {
  const readings = ways.map(way => [...elements, ...way]);
  const params = { ...where, readings: anyOf(readings.map(bracketed)) };
  // A device identifier that every reading holds is certain.
  const [first, ...others] = ways.map(way => way.find(({ entry }) => entry.ai === '01'));
  const certain = first !== undefined && others.every(one => one?.value.text === first.value.text);
  return {
    elements: certain ? [...elements, first] : elements,
    findings: [...findings, finding('label.ambiguous', path, params)],
    readings,
  };
}
