/** Bounds within which the truth lies with 95% confidence. */
export interface Interval {
  readonly low: number;
  /** Absent where the data set no upper bound. */
  readonly high?: number;
}

/** Quantile of the normal distribution for 95%, two-sided. */
export const Z = 1.959963984540054;
