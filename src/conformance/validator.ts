import { finding, messageOf, remedyOf } from '../findings/finding.js';
import type { Json, JsonObject, JsonProblem, Source } from '../json/parse.js';
import { MAX_DEPTH, parseJson } from '../json/parse.js';
import type { Position } from '../json/position.js';
import { offsetOf, positionsOf } from '../json/position.js';
import { appliedProfiles } from './check/claims.js';
import { Matchers } from './check/discriminator.js';
import { isObject } from './check/equal.js';
import { Invariants } from './check/invariants.js';
import { rootPlace } from './check/place.js';
import type { Draft } from './check/run.js';
import { Run } from './check/run.js';
import { shown } from './check/values.js';
import { Walk } from './check/walk.js';
import type { Definitions } from './definitions/definitions.js';
import type { Issue, Result, ValidateOptions, Validator } from './result.js';
import { AsksMore } from './schema/asks-more.js';
import { Planner } from './schema/planner.js';
import type { Answers } from './terminology/terminology.js';
import { Terminology } from './terminology/terminology.js';
import type { Waiver } from './waivers.js';
import { applyWaivers } from './waivers.js';

export interface ValidatorOptions {
  /** Reviewed exceptions; a waived issue stays in the list as information. */
  readonly waivers?: readonly Waiver[];
  /** The day on which waivers are judged, `YYYY-MM-DD`; without it no waiver counts as expired. */
  readonly today?: string;
  /** What a terminology server answered before; see `askTerminologyServer`. */
  readonly answers?: Answers;
}

/** Makes a validator. What it reads of the definitions is kept, so the second resource is fast. */
export function createValidator(definitions: Definitions, options: ValidatorOptions = {}): Validator {
  const planner = new Planner(definitions);
  const terminology = new Terminology(definitions, options.answers);
  const asksMore = new AsksMore(planner);
  const invariants = new Invariants();
  const matchers = new Matchers();

  const check = (value: Json, source: Source | undefined, asked: ValidateOptions): Result => {
    const run = new Run(planner, terminology, asksMore);
    const root = rootPlace(typeOf(value), typeof value === 'object' && value !== null ? value : {});
    if (!isObject(value) || typeof value['resourceType'] !== 'string') {
      const found = isObject(value) ? 'an object without one' : shown(value);
      run.report('conformance.not-a-resource', root, { found });
    } else {
      const resource = value as JsonObject;
      const walk = new Walk(run, invariants, matchers, source);
      walk.resource(resource, [], { resource, root: resource, place: root }, asked.profiles);
    }
    const issues = placed(run.drafts, source);
    return {
      issues: options.waivers ? applyWaivers(issues, options.waivers, options.today) : issues,
      open: [...run.open.values()],
      evaluated: { profiles: appliedProfiles(run.applied), rules: rulesOf(run) },
    };
  };

  return {
    validateText(text, asked = {}) {
      const { value, source, problems } = parseJson(text);
      const position = positionsOf(text);
      const faults = problems.map(p => jsonIssue(p, position(p.offset)));
      if (value === undefined)
        return { issues: faults, open: [], evaluated: { profiles: [], rules: ['json-syntax'] } };
      const result = check(value, source, asked);
      return { ...result, issues: [...faults, ...result.issues] };
    },
    validateResource(resource, asked = {}) {
      return check(resource as Json, undefined, asked);
    },
  };
}

function typeOf(value: Json): string {
  return isObject(value) && typeof value['resourceType'] === 'string' ? value['resourceType'] : 'Resource';
}

/** Looks up line and column of each issue, and drops what was found twice by two definitions. */
function placed(drafts: readonly Draft[], source: Source | undefined): Issue[] {
  const position = source && positionsOf(source.text);
  const offsets = source?.offsets;
  const seen = new Set<string>();
  const issues: Issue[] = [];
  for (const { issue, place } of drafts) {
    const id = `${issue.rule}|${issue.path}|${issue.message}`;
    if (seen.has(id)) continue;
    seen.add(id);
    const offset = offsets && offsetOf(offsets, place.owner, place.key === '' ? undefined : place.key);
    issues.push(offset === undefined || !position ? issue : { ...issue, ...position(offset) });
  }
  return issues;
}

function jsonIssue({ kind, detail }: JsonProblem, { line, column }: Position): Issue {
  const said =
    kind === 'duplicate'
      ? finding('conformance.json-duplicate-key', '', { name: detail })
      : kind === 'depth'
        ? finding('conformance.json-too-deep', '', { limit: String(MAX_DEPTH) })
        : finding('conformance.json-syntax', '', { problem: detail });
  return {
    severity: said.severity,
    rule: said.code.slice('conformance.'.length) as Issue['rule'],
    path: '',
    line,
    column,
    message: messageOf(said),
    remedy: remedyOf(said),
    params: said.params,
  };
}

/** Rules and invariant keys that were looked at. */
function rulesOf(run: Run): string[] {
  const rules = new Set(['json-syntax', 'unknown-element', 'json-type', 'empty', 'min', 'max', ...run.rules]);
  for (const plan of run.applied) {
    if (plan.kind === 'primitive') rules.add('primitive-format');
    for (const { what } of plan.constraints) rules.add(what.key);
    for (const { element } of plan.values) {
      if (element.fixed) rules.add('fixed');
      if (element.pattern) rules.add('pattern');
    }
  }
  return [...rules].sort();
}
