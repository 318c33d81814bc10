import type { Severity } from '../../findings/define.js';
import { type FindingParams, finding, messageOf, remedyOf } from '../../findings/finding.js';
import type { conformanceWording } from '../../findings/wording/conformance.js';
import type { Issue } from '../result.js';
import type { AsksMore } from '../schema/asks-more.js';
import type { Def } from '../schema/definition.js';
import type { Plan } from '../schema/plan.js';
import type { Planner } from '../schema/planner.js';
import { sourceOf } from '../schema/planner.js';
import type { Question } from '../terminology/server.js';
import type { Terminology } from '../terminology/terminology.js';
import type { Place } from './place.js';
import { pathOf } from './place.js';
import type { Target } from './resolve.js';

export type Code = keyof typeof conformanceWording;

/** An issue before its place in the text is looked up. */
export interface Draft {
  readonly issue: Issue;
  readonly place: Place;
}

export interface ReportOptions {
  readonly def?: Def;
  readonly severity?: Severity;
  readonly expected?: string;
  readonly key?: string;
  /** A member of the value at `place`, to point at more exactly. */
  readonly member?: { readonly owner: object; readonly key: string };
}

/** What one validation carries along: definitions, and what was found so far. */
export class Run {
  readonly planner: Planner;
  readonly terminology: Terminology;
  readonly asksMore: AsksMore;
  drafts: Draft[] = [];
  /** Plans that were applied, for the report of what was evaluated. */
  readonly applied = new Set<Plan>();
  readonly rules = new Set<string>();
  /** Code memberships that the packages could not decide, by their text. */
  readonly open = new Map<string, Question>();
  /** Results of trials: does this resource conform to that profile? */
  readonly conforming = new Map<object, Map<string, Verdict | 'pending'>>();
  /** Tries a resource against a profile; set by the walk. */
  trial: Trial = () => CONFORMS;
  /** True while a resource is tried against a profile; what its type asks is checked elsewhere. */
  trying = false;
  private readonly saidOnce = new Set<string>();

  constructor(planner: Planner, terminology: Terminology, asksMore: AsksMore) {
    this.asksMore = asksMore;
    this.planner = planner;
    this.terminology = terminology;
  }

  report<C extends Code>(code: C, place: Place, params: FindingParams<C>, options: ReportOptions = {}): void {
    const { def, severity, expected, key, member } = options;
    const said = finding(code, pathOf(place), params, severity && { severity });
    if (this.trying) {
      if (said.severity === 'error' || said.severity === 'fatal')
        throw new TrialFailed(`${said.path}: ${messageOf(said)}`);
      return;
    }
    this.drafts.push({
      place: member ? { ...place, owner: member.owner, key: member.key } : place,
      issue: {
        severity: said.severity,
        rule: code.slice('conformance.'.length) as Issue['rule'],
        ...(key !== undefined && { key }),
        path: said.path,
        message: messageOf(said),
        remedy: remedyOf(said),
        ...(expected !== undefined && { expected }),
        ...(def && { source: sourceOf(def) }),
        params: said.params,
      },
    });
  }

  /** True the first time `what` is asked: for notices that are given once. Trials give none. */
  once(what: string): boolean {
    if (this.trying || this.saidOnce.has(what)) return false;
    this.saidOnce.add(what);
    return true;
  }

  /**
   * Runs `check` as a trial: stops at the first error, which is the verdict's reason, and leaves the
   * result as it was.
   */
  aside(check: () => void): Verdict {
    const { drafts, trying } = this;
    this.drafts = [];
    this.trying = true;
    try {
      check();
      return CONFORMS;
    } catch (stop) {
      if (!(stop instanceof TrialFailed)) throw stop;
      return { conforms: false, reason: stop.reason };
    } finally {
      this.drafts = drafts;
      this.trying = trying;
    }
  }
}

/** Ends a trial at its first error. */
class TrialFailed {
  readonly reason: string;
  constructor(reason: string) {
    this.reason = reason;
  }
}

/** Whether a resource conforms to a profile. */
export type Trial = (target: Target, profile: string) => Verdict;

export type Verdict = { readonly conforms: true } | { readonly conforms: false; readonly reason: string };
export const CONFORMS: Verdict = { conforms: true };
