import type { AftercareItem } from '../clinical/aftercare/aftercare.js';
import { assess } from '../clinical/assess.js';
import type { Assessment } from '../clinical/assessment.js';
import type { Calculation } from '../clinical/calculation.js';
import type { CatalogueRow } from '../devices/catalogue/row.js';
import type { NotChecked } from '../devices/sizes/context.js';
import type { EndState } from '../devices/types.js';
import { type Finding, finding, sortFindings } from '../findings/finding.js';
import type { Language } from '../findings/languages.js';
import type { Param } from '../findings/message.js';
import { lexicon, say as sayIn } from '../findings/say.js';
import { type ParsedCase, parseCase, placed } from '../record/parse.js';
import type { Quantity } from '../record/quantity.js';
import type { CaseRecord } from '../record/schema/record.js';
import { printer } from '../report/print/printer.js';
import { taskItems } from '../report/view/tasks.js';
import type { Site } from '../site/site.js';
import { caseKindNamed } from '../trade/cases/table.js';
import { assessOptions } from './settings.js';

/** A case that was read and assessed. */
export interface CheckedCase {
  /** Present when the record is whole: only then may it be reported or sent. */
  readonly record?: CaseRecord;
  /** Present when at least a part could be read. */
  readonly assessment?: Assessment;
  readonly unreadable: boolean;
  /** Everything there is to say, with lines where the case came as text, in order of lines. */
  readonly findings: readonly Finding[];
  readonly parsed: ParsedCase;
}

/** One row of the tally as results print it. */
export interface TallyRow {
  readonly device: string;
  readonly part?: string;
  readonly name: string;
  /** Row of the table of kinds that it was read as; absent for a kind that is not there. */
  readonly kind?: string;
  readonly state: EndState;
  /** What people read, where a language is named. */
  readonly said?: { readonly state: string };
  readonly because: string;
  readonly count: number;
  readonly carried: boolean;
  /** Path and line of the event that made the state so. */
  readonly event?: string;
  readonly line?: number;
  readonly inserted?: string;
  readonly removed?: string;
  readonly site?: string;
}

/**
 * Reads a case and assesses it. Where a part could not be read, the rest is checked all the same.
 * @param now milliseconds since 1970: nothing that was done can be later; absent: not checked
 */
export function checkCase(
  input: string | Uint8Array,
  site: Site,
  catalogue?: ReadonlyMap<string, CatalogueRow>,
  now?: number,
): CheckedCase {
  const parsed = parseCase(input, site.timeZone === undefined ? {} : { timeZone: site.timeZone });
  return assessParsed(parsed, site, catalogue, now);
}

/** Assesses what was read. */
export function assessParsed(
  parsed: ParsedCase,
  site: Site,
  catalogue?: ReadonlyMap<string, CatalogueRow>,
  now?: number,
): CheckedCase {
  const options = { ...assessOptions(site, catalogue), ...(now !== undefined && { now }) };
  if (parsed.record) {
    const assessment = assess(parsed.record, options, parsed.findings);
    return {
      record: parsed.record,
      assessment,
      unreadable: false,
      findings: sortFindings(placed(assessment.findings, parsed.locate)),
      parsed,
    };
  }
  if (!parsed.partial)
    return { unreadable: parsed.unreadable, findings: sortFindings(parsed.findings), parsed };
  const assessment = assess(parsed.partial, options);
  const found = assessment.findings.map(f => ({
    ...f,
    path: parsed.original(f.path),
    ...(f.follows && { follows: { ...f.follows, path: parsed.original(f.follows.path) } }),
  }));
  const all = [...parsed.findings, ...placed(found, parsed.locate), incomplete()];
  return { assessment, unreadable: parsed.unreadable, findings: sortFindings(all), parsed };
}

const incomplete = () => finding('record.checked-in-part', '', {});

/** A calculation as results print it; in English where no language is named. */
export interface CalculationRow extends Pick<Calculation, 'key' | 'group'> {
  readonly what: string;
  readonly rule: string;
  readonly basis: string;
  readonly inputs: readonly { readonly name: string; readonly value: string; readonly path?: string }[];
  readonly result?: { readonly text: string; readonly quantity?: Quantity };
  readonly notAssessed?: string;
}

/** What was worked out, as rows. */
export function calculationRows(
  { assessment }: Pick<CheckedCase, 'assessment'>,
  language?: Language,
): CalculationRow[] {
  return (assessment?.calculations ?? []).map(one => calculationRow(one, language));
}

export function calculationRow(calculation: Calculation, language?: Language): CalculationRow {
  const say = (message: Param) => sayIn(message, language);
  const { key, group, what, rule, basis, inputs, result, notAssessed } = calculation;
  return {
    key,
    group,
    what: say(what),
    rule: say(rule),
    basis: say(basis),
    inputs: inputs.map(({ name, value, ...where }) => ({ name: say(name), value: say(value), ...where })),
    ...(result && { result: { ...result, text: say(result.text) } }),
    ...(notAssessed && { notAssessed: say(notAssessed) }),
  };
}

/** The tally as rows, with the lines of the text. */
export function tallyRows({ assessment, parsed }: CheckedCase, language?: Language): TallyRow[] {
  const say = (message: Param) => sayIn(message, language);
  return (assessment?.tally.entries ?? []).map(entry => {
    const path = entry.event && parsed.original(entry.event.path);
    const line = path === undefined ? undefined : parsed.locate(path)?.line;
    const row = entry.part === undefined ? assessment?.devices.get(entry.device)?.row : undefined;
    return {
      device: entry.device,
      ...(entry.part !== undefined && { part: entry.part }),
      name: say(entry.name),
      ...(row !== undefined && { kind: row }),
      state: entry.state,
      ...(language && { said: { state: lexicon(language).say(`state.${entry.state}`) } }),
      because: say(entry.why),
      count: entry.count,
      carried: entry.carried,
      ...(path !== undefined && { event: path }),
      ...(line !== undefined && { line }),
      ...(entry.inserted && { inserted: entry.inserted.iso }),
      ...(entry.removed && { removed: entry.removed.iso }),
      ...(entry.site && { site: entry.site.text }),
    };
  });
}

/** What was found and worked out, as results print it; with a language, what people read beside what programs do. */
export function checkedRows(checked: CheckedCase, language?: Language): object {
  const { assessment, findings, parsed } = checked;
  const kind = (parsed.record ?? parsed.partial)?.case?.kind;
  const rows = kind === undefined ? undefined : caseKindNamed(kind)?.rows;
  return {
    findings,
    ...(rows && { caseKind: rows.map(({ name }) => name) }),
    tally: tallyRows(checked, language),
    calculations: calculationRows(checked, language),
    aftercare: language ? aftercareRows(checked, language) : (assessment?.aftercare ?? []),
    notChecked: (assessment?.notChecked ?? []).map(one => notCheckedRow(one, language)),
  };
}

/** A size check that could not be made, as results print it. */
export interface NotCheckedRow {
  readonly what: string;
  readonly because: string;
  readonly path: string;
}

const notCheckedRow = ({ what, because, path }: NotChecked, language?: Language): NotCheckedRow => ({
  what: sayIn(what, language),
  because: sayIn(because, language),
  path,
});

/** An item of the aftercare with what people read of it: the words of the reports. */
export interface AftercareRow extends AftercareItem {
  readonly said: {
    readonly what: string;
    readonly who: string;
    readonly when: readonly string[];
    readonly call: readonly string[];
  };
}

function aftercareRows({ assessment, parsed }: CheckedCase, language: Language): AftercareRow[] {
  const record = parsed.record ?? parsed.partial;
  if (!assessment || !record) return [];
  const said = taskItems(printer(record, assessment, { language }));
  return assessment.aftercare.map((item, index) => {
    const { what = item.what, who = item.by, when = [], call = [] } = said[index] ?? {};
    return { ...item, said: { what, who, when, call } };
  });
}
