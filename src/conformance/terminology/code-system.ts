import type { CodeSystem, Concept } from '../definitions/model.js';

/** A code system ready for questions. */
export class Codes {
  readonly system: CodeSystem;
  /** True when the package holds every code, so that an absent code is wrong. */
  readonly complete: boolean;
  private readonly byCode = new Map<string, Concept>();
  private readonly folded = new Map<string, Concept>();

  constructor(system: CodeSystem) {
    this.system = system;
    this.complete = system.content === 'complete';
    for (const concept of system.concept) {
      this.byCode.set(concept.code, concept);
      this.folded.set(concept.code.toLowerCase(), concept);
    }
  }

  find(code: string): Concept | undefined {
    const found = this.byCode.get(code);
    return found ?? (this.system.caseSensitive === false ? this.folded.get(code.toLowerCase()) : undefined);
  }

  /** The code that differs in case only, for a hint. */
  nearly(code: string): string | undefined {
    return this.folded.get(code.toLowerCase())?.code;
  }

  /** Codes for which `test` holds. */
  where(test: (concept: Concept) => boolean): Set<string> {
    return new Set(this.system.concept.filter(test).map(c => c.code));
  }

  /** `code` and, over any number of steps, everything below it. */
  below(code: string): Set<string> {
    const found = new Set(this.byCode.has(code) ? [code] : []);
    for (let grew = found.size > 0; grew; ) {
      grew = false;
      for (const concept of this.system.concept) {
        if (!found.has(concept.code) && concept.parent?.some(p => found.has(p))) {
          found.add(concept.code);
          grew = true;
        }
      }
    }
    return found;
  }

  /** `code` and everything above it. */
  above(code: string): Set<string> {
    const found = new Set<string>();
    const walk = (at: string) => {
      if (found.has(at)) return;
      found.add(at);
      for (const parent of this.byCode.get(at)?.parent ?? []) walk(parent);
    };
    walk(code);
    return found;
  }
}
