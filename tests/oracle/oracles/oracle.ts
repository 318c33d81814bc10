/** What one validator says about one text. */
export interface Verdict {
  readonly issues: readonly OracleIssue[];
  /** Set when the validator crashed instead of answering; such a pair counts as 'no verdict'. */
  readonly failure?: string;
}

export interface OracleIssue {
  readonly severity: 'fatal' | 'error' | 'warning' | 'information';
  readonly path: string;
  readonly message: string;
  /** Rule or message key in the validator's own words. */
  readonly rule?: string;
}

/** One text to judge, with profiles to hold it to beside those it claims. */
export interface Question {
  readonly text: string;
  readonly profiles: readonly string[];
}

/** A validator this run listens to. */
export interface Oracle {
  readonly name: string;
  /** Changes whenever a kept verdict could be out of date; undefined for no keeping. */
  readonly version?: string;
  readonly ask: (questions: readonly Question[], progress: (done: number) => void) => Promise<Verdict[]>;
  /** Milliseconds each for texts already judged several times, so that nothing is cold. */
  readonly time: (questions: readonly Question[], rounds: number) => Promise<number[]>;
  readonly close: () => void;
}

export function isError(verdict: Verdict): boolean {
  return verdict.issues.some(issue => issue.severity === 'error' || issue.severity === 'fatal');
}

/** `ask` and `time` for a validator that answers in this process. */
export function inProcess(name: string, judge: (question: Question) => Verdict, version?: string): Oracle {
  const ask: Oracle['ask'] = async (questions, progress) =>
    questions.map((question, index) => {
      progress(index);
      try {
        return judge(question);
      } catch (failure) {
        return { issues: [], failure: String(failure).slice(0, 300) };
      }
    });
  const time: Oracle['time'] = async (questions, rounds) =>
    questions.map(question => {
      let best = Number.POSITIVE_INFINITY;
      for (let round = 0; round < rounds; round++) {
        const start = performance.now();
        try {
          judge(question);
        } catch {
          return Number.NaN;
        }
        best = Math.min(best, performance.now() - start);
      }
      return best;
    });
  return { name, ask, time, close: () => {}, ...(version !== undefined && { version }) };
}
