import { type Name, namesOf } from '../../fhir/names.js';
import type { LocalCode, Subject } from '../../fhir/options.js';
import type { Code } from '../../record/schema/fields.js';
import type { Site } from '../../site/site.js';
import { analyteNamed } from '../../trade/analytes.js';
import { caseRow } from '../../trade/cases/table.js';
import { deviceTable } from '../../trade/devices/table.js';
import { drugsIn } from '../../trade/drugs/table.js';
import type { CheckedCase } from '../check.js';
import { mappingOptions } from '../settings.js';

/** A code that somebody else gave for a name, for a person to judge. */
export interface ProposedCode extends Code {
  /** The text of the site's own list that means the same, or the operation of the server. */
  readonly from: string;
}

/** A name without any code, how often it stands in the records, and what is proposed for it. */
export interface OpenName {
  readonly what: Subject;
  /** As it was written first. */
  readonly text: string;
  readonly times: number;
  readonly cases: number;
  readonly proposed: readonly ProposedCode[];
}

/** What a number of records name. */
export interface NamesOfCases {
  readonly cases: number;
  /** Different names, those with a code too. */
  readonly names: number;
  /** Those without a code, the most frequent first. */
  readonly open: readonly OpenName[];
}

interface Counted extends Name {
  times: number;
  readonly cases: Set<number>;
}

/** Gathers names case by case, so that no record is kept longer than it is read. */
export class NameCount {
  private readonly known = new Map<string, Counted>();
  private readonly options: ReturnType<typeof mappingOptions>;
  private readonly local: Readonly<Record<string, readonly LocalCode[]>>;
  private readonly rows = new Map<Subject, ReadonlyMap<string, readonly ProposedCode[]>>();
  private count = 0;

  /** @param softwareVersion as for the resources, whose ways are taken */
  constructor(site: Site, softwareVersion: string) {
    this.options = mappingOptions(site, softwareVersion);
    this.local = site.coding.local;
  }

  add({ record, assessment }: CheckedCase): void {
    if (!record || !assessment) return;
    this.count += 1;
    for (const name of namesOf(record, assessment.devices.values(), this.options)) {
      const coded = name.coding.length > 0;
      // The same words with a code in one record and without one in another are open where they have none.
      const key = JSON.stringify([name.what, name.text.trim().toLowerCase(), coded]);
      const known = this.known.get(key) ?? { ...name, times: 0, cases: new Set<number>() };
      known.times += 1;
      known.cases.add(this.count);
      this.known.set(key, known);
    }
  }

  result(): NamesOfCases {
    const open = [...this.known.values()]
      .filter(({ coding }) => coding.length === 0)
      .map(({ what, text, times, cases }) => ({
        ...{ what, text, times, cases: cases.size },
        proposed: this.fromOwnList(what, text),
      }))
      .sort((a, b) => b.times - a.times || a.what.localeCompare(b.what) || (a.text < b.text ? -1 : 1));
    return { cases: this.count, names: this.known.size, open };
  }

  /** Codes that the site gives another name of the same row of trade words. */
  private fromOwnList(what: Subject, text: string): readonly ProposedCode[] {
    const row = rowOf(what, text);
    if (row === undefined) return [];
    let rows = this.rows.get(what);
    if (!rows) {
      rows = this.listed(what);
      this.rows.set(what, rows);
    }
    return rows.get(row) ?? [];
  }

  /** The site's codes for one kind of thing, by the row of trade words that their texts mean. */
  private listed(what: Subject): ReadonlyMap<string, readonly ProposedCode[]> {
    const rows = new Map<string, readonly ProposedCode[]>();
    for (const [from, codes] of Object.entries(this.local)) {
      const row = rowOf(what, from);
      if (row === undefined) continue;
      const meant = codes.filter(code => code.what === undefined || code.what === what);
      const proposed = meant.map(({ system, code, display }) => ({
        ...{ system, code, from },
        ...(display !== undefined && { display }),
      }));
      rows.set(row, [...(rows.get(row) ?? []), ...proposed]);
    }
    return rows;
  }
}

/** The row of trade words that a name means; undefined where it means none, or more than one. */
function rowOf(what: Subject, text: string): string | undefined {
  switch (what) {
    case 'case':
      return caseRow(text)?.name;
    case 'device':
      return deviceTable.find(text)?.row.name;
    case 'measurement':
      return analyteNamed(text)?.name;
    case 'drug': {
      const [row, another] = drugsIn(text);
      return another ? undefined : row?.name;
    }
    default:
      return undefined;
  }
}
