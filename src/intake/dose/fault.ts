import type { Finding } from '../../findings/finding.js';

/** Ends the reading of one file with what is said of it. It is caught where reading begins and never leaves this folder. */
export class Unreadable extends Error {
  readonly finding: Finding;

  constructor(finding: Finding) {
    super(finding.code);
    this.finding = finding;
  }
}
