import { type Finding, finding } from '../findings/finding.js';
import { shownText } from '../record/issues.js';
import { pathText } from '../record/path.js';
import type { Tree } from '../record/read.js';
import type { Contribution, GivenValue } from './contribution.js';
import { isField, isGroupField, isListField, type Path, plainValue, thingOf } from './fields.js';
import { type Source, sourceOf, sourceSaid } from './source.js';

/** One value that a source claims. */
export interface Claim {
  readonly path: Path;
  readonly value: Tree;
  readonly source: Source;
  /** When it was so, where the source says it. */
  readonly at?: string;
  readonly said?: string;
  /** It came as part of one whole thing, such as a device of a kit. */
  readonly whole: boolean;
}

/** Something that a person may take over; it asserts nothing. */
export interface Proposal {
  readonly path: Path;
  readonly value: Tree;
  readonly source: Source;
  /** An entry of the list at the path. */
  readonly entry: boolean;
  readonly at?: string;
  readonly said?: string;
}

/** What all sources together give, value by value, and what of it no record can hold. */
export interface Claims {
  readonly set: readonly Claim[];
  readonly add: readonly Claim[];
  readonly proposals: readonly Proposal[];
  readonly findings: readonly Finding[];
}

/** The deepest path of a record and a few steps more. */
const DEEPEST = 12;

export function claimsOf(contributions: readonly Contribution[]): Claims {
  const set: Claim[] = [];
  const add: Claim[] = [];
  const proposals: Proposal[] = [];
  const findings: Finding[] = [];
  for (const one of contributions) {
    findings.push(...one.findings);
    for (const given of one.values) take(given, sourceOf(one));
  }
  return { set, add, proposals, findings };

  function take(given: GivenValue, source: Source): void {
    const path = given.path.slice(0, DEEPEST);
    const value = plainValue(given.value);
    const list = given.as === 'add' || given.as === 'propose-entry';
    if (!(list ? isListField(path) : isField(path))) refuse('intake.not-a-field', path, source);
    else if (value === undefined) refuse('intake.not-a-value', path, source);
    else {
      const rest = {
        source,
        ...(given.at !== undefined && { at: given.at }),
        ...(given.said !== undefined && { said: given.said }),
      };
      if (given.as === 'set') flatten(path, value, rest, thingOf(path)?.length === path.length);
      else if (given.as === 'add') add.push({ path, value, ...rest, whole: false });
      else proposals.push({ path, value, ...rest, entry: given.as === 'propose-entry' });
    }
  }

  function flatten(
    path: Path,
    value: Tree,
    rest: Pick<Claim, 'source' | 'at' | 'said'>,
    whole: boolean,
  ): void {
    if (typeof value !== 'object' || Array.isArray(value) || !isGroupField(path)) {
      set.push({ path, value, ...rest, whole });
      return;
    }
    for (const [name, child] of Object.entries(value)) {
      const inner = [...path, name];
      if (isField(inner)) flatten(inner, child, rest, whole || thingOf(inner)?.length === inner.length);
      else refuse('intake.not-a-field', inner, rest.source);
    }
  }

  function refuse(code: 'intake.not-a-field' | 'intake.not-a-value', path: Path, source: Source): void {
    const place = shownText(pathText(path));
    const said = sourceSaid(source);
    findings.push(
      code === 'intake.not-a-field'
        ? finding(code, place, { source: { sentence: said }, place })
        : finding(code, place, { source: said, place }),
    );
  }
}
