/**
 * Words by which a task is known not to be a visit of the patient: somebody reads, writes, calls or decides, or nothing
 * is to be done. Common practice, no source; matched as whole words, in any case.
 */
const notVisits: readonly RegExp[] = [
  /^(?:no|none|nothing|not|never|without)\b/i,
  /\bno (?:further |routine |planned )?(?:follow[- ]?up|review|removal|exchange|appointment|visit|imaging)\b/i,
  /\b(?:need(?:s|ed)?|required?|planned|necessary)\b.*\bno\b|\bnot (?:needed|required|necessary|planned)\b/i,
  /^(?:tele)?phone\b|^(?:call|ring|tell|inform|notify|write|report|send|forward|copy|email|chase|file|register|record|document|discuss|present|decide|order|book|request|refer|arrange|plan|prescribe|continue|restart|resume|stop|hold|start|give|take|keep|avoid)\b/i,
  /\b(?:histology|cytology|culture|result|results|pathology|biopsy report|letter|multidisciplinary|meeting|registry|register)\b/i,
  /\d\s*(?:mg|g|µg|mcg|IU|units?)\b/i,
];

/** Words by which it is another place that sees the patient than who was asked to see to it. */
const elsewhere = /\b(?:clinic|outpatients?|centre|center|department|consultation)\b/i;

/** True for a visit that whoever is asked to do the task arranges, and does not make. */
export const isArranged = (task: string): boolean => elsewhere.test(task);

/** True for a task that somebody does with the patient there. */
export const isVisit = (task: string): boolean => !notVisits.some(pattern => pattern.test(task.trim()));
