import type { Definitions } from '../definitions/definitions.js';
import { Codes } from './code-system.js';
import { grammarVerdict } from './grammars.js';
import type { Answer } from './membership.js';
import { Membership } from './membership.js';

/** What an outside terminology server said, so that checks can use it while staying synchronous. */
export interface Answers {
  /** Whether a code is in a value set; undefined when nobody asked. */
  member(valueSet: string, system: string | undefined, code: string): boolean | undefined;
}

/** Value sets and code systems of the loaded definitions, made ready as they are asked for. */
export class Terminology {
  private readonly definitions: Definitions;
  private readonly answers: Answers | undefined;
  private readonly systems = new Map<string, Codes | undefined>();
  private readonly sets = new Map<string, Membership | undefined>();

  constructor(definitions: Definitions, answers?: Answers) {
    this.definitions = definitions;
    this.answers = answers;
  }

  codes(system: string): Codes | undefined {
    if (this.systems.has(system)) return this.systems.get(system);
    const found = this.definitions.codeSystem(system);
    const codes = found && new Codes(found);
    this.systems.set(system, codes);
    return codes;
  }

  members(canonical: string): Membership | undefined {
    if (this.sets.has(canonical)) return this.sets.get(canonical);
    // Set before it is built: a value set that imports itself must not recurse for ever.
    this.sets.set(canonical, undefined);
    const found = this.definitions.valueSet(canonical);
    const members = found && new Membership(found, this);
    this.sets.set(canonical, members);
    return members;
  }

  /** Whether a code is in the value set at `canonical`. */
  test(canonical: string, system: string | undefined, code: string): Answer {
    const members = this.members(canonical);
    const answer: Answer = members?.test(system, code) ?? {
      is: 'unknown',
      reason: 'the value set is not loaded',
    };
    if (answer.is !== 'unknown') return answer;
    const said = this.answers?.member(canonical, system, code);
    return said === undefined ? answer : { is: said ? 'in' : 'out' };
  }

  /** Whether `system` has `code`; undefined when the packages do not hold the whole system. */
  exists(system: string, code: string): boolean | undefined {
    const codes = this.codes(system);
    if (codes?.find(code)) return true;
    if (codes?.complete) return false;
    return grammarVerdict(system, code);
  }
}
