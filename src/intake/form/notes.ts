import type { FindingCode } from '../../findings/catalogue.js';
import { type Finding, type FindingParams, finding } from '../../findings/finding.js';
import type { Json, Source } from '../../json/parse.js';
import { offsetOf, type Position, positionsOf } from '../../json/position.js';

/** Part of a response that is not in the record. */
export interface LeftOut {
  /** Where in the response: `item[3].item[0]`. */
  readonly place: string;
  /** The JSON of it, with the digits of its numbers. */
  readonly content: string;
}

/** An element of the response and the way to it. */
export interface Spot {
  readonly owner: object;
  readonly name?: string;
  readonly path: string;
}

/** The most findings about one response that are listed one by one. */
export const MAX_FINDINGS = 200;
/** The most characters of an answer that a finding shows. */
const MAX_SHOWN = 200;

/** What there is to say about a response, in its order. */
export class Notes {
  readonly leftOut: LeftOut[] = [];
  readonly #findings: Finding[] = [];
  readonly #source: Source;
  /** Line and column of an offset in the text of the response. */
  readonly position: (offset: number) => Position;
  #more = 0;

  constructor(source: Source) {
    this.#source = source;
    this.position = positionsOf(source.text);
  }

  /** The findings, those past the most of them as one. */
  get findings(): readonly Finding[] {
    const more = this.#more;
    return more === 0 ? this.#findings : [...this.#findings, finding('form.more', '', { count: `${more}` })];
  }

  say<C extends FindingCode>(code: C, spot: Spot, params: FindingParams<C>): void {
    if (this.#findings.length < MAX_FINDINGS)
      this.#findings.push(finding(code, spot.path, params, this.at(spot)));
    else this.#more += 1;
  }

  /** Keeps what has no place in the record; gives a short text of it for the finding. */
  leave(spot: Spot, content: Json): string {
    const text = exactText(content, this.#source, spot.owner, spot.name ?? '');
    this.leftOut.push({ place: spot.path, content: text });
    return shownShort(text);
  }

  /** Line and column in the text of the response. */
  at({ owner, name }: Spot): Partial<Position> {
    const offset = offsetOf(this.#source.offsets, owner, name);
    return offset === undefined ? {} : this.position(offset);
  }
}

export const shownShort = (text: string): string =>
  text.length > MAX_SHOWN ? `${text.slice(0, MAX_SHOWN)}…` : text;

/** JSON on one line, numbers with the digits that they were written with. */
export function exactText(value: Json, source: Source, owner: object, name: string): string {
  if (typeof value === 'number') return source.numbers.get(owner)?.get(name) ?? String(value);
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const inside = Object.entries(value).map(([key, child]): string => {
    const text = exactText(child ?? null, source, value, key);
    return Array.isArray(value) ? text : `${JSON.stringify(key)}:${text}`;
  });
  return Array.isArray(value) ? `[${inside.join(',')}]` : `{${inside.join(',')}}`;
}
