/** Parts of the record that are entered together: before the puncture, and when the case is over. */
export type Stage = 'before' | 'end';

/** Parts and places of each, in the order in which they are entered. */
export const stages: Readonly<Record<Stage, readonly string[]>> = {
  before: [
    ...['case', 'patient', 'team', 'indication', 'planned', 'before', 'sedation', 'access', 'targets'],
    ...['drugs', 'vitals'],
  ],
  end: [
    ...['case.status', 'contrast', 'radiation', 'images', 'specimens', 'complications', 'findings'],
    ...['outcome', 'conclusion', 'left', 'missing', 'aftercare', 'advice', 'after', 'report'],
  ],
};

export const stageNames = Object.keys(stages) as readonly Stage[];
