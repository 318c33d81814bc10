import { isObject, sameJson } from './equal.js';
import type { Items } from './simple-items.js';
import { choiceOf, memberOf } from './simple-items.js';

/**
 * A compiler for the plain part of FHIRPath in which most invariants are written: element paths with
 * exists(), empty(), hasValue(), not(), first(), where(), all(), count(), ofType() of a choice and
 * intersect(), comparison with literals, and logic.
 * It is there for speed: what it does not know it refuses, and the FHIRPath library evaluates it.
 * tests/conformance/simple-path.test.ts holds it against that library on all published invariants.
 */
export type Simple = (context: unknown) => boolean | undefined;

/**
 * Whether the element at `path`, from the type of the expression, is a choice; undefined where unknown. A
 * choice with its type (`valueQuantity`) is none, and unknown where a type derived from it would do too.
 */
export type IsChoice = (path: readonly string[]) => boolean | undefined;

/** An evaluated expression: a truth value (undefined is FHIRPath's empty), or a collection of items. */
type Node = { readonly kind: 'truth'; readonly run: Simple } | ItemsNode;
interface ItemsNode {
  readonly kind: 'items';
  readonly run: (context: unknown) => Items;
  readonly path: readonly string[] | undefined;
  /** For a choice element that nothing filtered: what owns it, for ofType(). */
  readonly owners?: (context: unknown) => Items;
}

class Refused extends Error {}

const TOKEN = /\s*(?:('(?:[^'\\]|\\.)*')|`(\w+)`|(%?[A-Za-z_]\w*|\d+(?![\w.]))|(!=|[().=]))/y;
const WORDS = new Set(['and', 'or', 'xor', 'implies', 'is', 'true', 'false']);

/** Compiles `expression`, or gives nothing when it uses more than this file knows. */
export function compileSimple(expression: string, isChoice: IsChoice): Simple | undefined {
  try {
    return new Compiler(tokens(expression), isChoice, []).whole();
  } catch (error) {
    if (error instanceof Refused) return undefined;
    throw error;
  }
}

function tokens(expression: string): string[] {
  const found: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < expression.trimEnd().length) {
    const match = TOKEN.exec(expression);
    if (!match) throw new Refused();
    const [, quoted, ticked, word, sign] = match;
    if (quoted?.includes('\\')) throw new Refused();
    found.push(quoted ?? (ticked === undefined ? (word ?? sign ?? '') : `\`${ticked}`));
  }
  return found;
}

class Compiler {
  private readonly tokens: readonly string[];
  private readonly isChoice: IsChoice;
  /** Path of the context: inside where() it is the filtered element. */
  private readonly base: readonly string[] | undefined;
  private at = 0;

  constructor(found: readonly string[], isChoice: IsChoice, base: readonly string[] | undefined) {
    this.tokens = found;
    this.isChoice = isChoice;
    this.base = base;
  }

  whole(): Simple {
    const run = truth(this.implies());
    if (this.at < this.tokens.length) throw new Refused();
    return run;
  }

  private implies(): Node {
    let left = this.or();
    while (this.take('implies')) {
      const [a, b] = [truth(left), truth(this.or())];
      left = logic(c => {
        const x = a(c);
        if (x === false) return true;
        const y = b(c);
        return x === true ? y : y === true ? true : undefined;
      });
    }
    return left;
  }

  private or(): Node {
    let left = this.and();
    for (;;) {
      const exclusive = this.take('xor');
      if (!exclusive && !this.take('or')) return left;
      const [a, b] = [truth(left), truth(this.and())];
      left = logic(c => {
        const x = a(c);
        if (x === true && !exclusive) return true;
        const y = b(c);
        if (exclusive) return x === undefined || y === undefined ? undefined : x !== y;
        return y === true ? true : x === undefined || y === undefined ? undefined : false;
      });
    }
  }

  private and(): Node {
    let left = this.equality();
    while (this.take('and')) {
      const [a, b] = [truth(left), truth(this.equality())];
      left = logic(c => {
        const x = a(c);
        if (x === false) return false;
        const y = b(c);
        return y === false ? false : x === undefined || y === undefined ? undefined : true;
      });
    }
    return left;
  }

  private equality(): Node {
    const left = this.term();
    const differs = this.take('!=');
    if (!differs && !this.take('=')) return left;
    const right = this.term();
    if (left.kind === 'truth' && right.kind === 'truth') {
      return logic(c => {
        const [x, y] = [left.run(c), right.run(c)];
        return x === undefined || y === undefined ? undefined : (x === y) !== differs;
      });
    }
    if (left.kind !== 'items' || right.kind !== 'items') throw new Refused();
    return logic(c => {
      const [x, y] = [left.run(c), right.run(c)];
      if (x.length === 0 || y.length === 0) return undefined;
      return (x.length === 1 && y.length === 1 && x[0] === y[0]) !== differs;
    });
  }

  private term(): Node {
    const token = this.next();
    if (token === '(') {
      const inner = this.implies();
      this.expect(')');
      return this.path(inner);
    }
    if (token.startsWith("'")) {
      const items = [token.slice(1, -1)];
      return { kind: 'items', run: () => items, path: undefined };
    }
    if (/^\d/.test(token)) {
      const items = [Number(token)];
      return { kind: 'items', run: () => items, path: undefined };
    }
    if (token === 'true' || token === 'false') return logic(() => token === 'true');
    if (token.startsWith('%') || (WORDS.has(token) && !token.startsWith('`'))) throw new Refused();
    if (/^[A-Z.=!)]/.test(token) || this.peek() === '(') throw new Refused();
    return this.path(this.child(undefined, token));
  }

  /** What follows a term: `.child` and `.function()`. */
  private path(start: Node): Node {
    let node = start;
    while (this.take('.')) {
      const name = this.next();
      node = this.peek() === '(' ? this.call(node, name) : this.child(node, name);
    }
    return node;
  }

  private child(parent: Node | undefined, token: string): Node {
    const name = token.replace('`', '');
    if (parent?.kind === 'truth') throw new Refused();
    const above = parent ? parent.path : this.base;
    const path = above && [...above, name];
    const choice = path && this.isChoice(path);
    if (choice === undefined) throw new Refused();
    const step = choice ? choiceOf(name) : memberOf(name);
    const run = parent ? (c: unknown) => parent.run(c).flatMap(step) : step;
    if (!choice) return { kind: 'items', run, path };
    return { kind: 'items', run, path, owners: parent ? parent.run : c => [c] };
  }

  private call(node: Node, name: string): Node {
    this.expect('(');
    if (name === 'not' && node.kind === 'truth') {
      this.expect(')');
      return logic(c => {
        const x = node.run(c);
        return x === undefined ? undefined : !x;
      });
    }
    if (node.kind === 'truth') throw new Refused();
    const { run, path } = node;
    if (name === 'where' || name === 'all') {
      const inner = new Compiler(this.tokens, this.isChoice, path);
      inner.at = this.at;
      const test = truth(inner.implies());
      this.at = inner.at;
      this.expect(')');
      if (name === 'all') return logic(c => run(c).every(item => test(item) === true));
      return { kind: 'items', run: c => run(c).filter(item => test(item) === true), path };
    }
    if (name === 'intersect') return this.intersect(run);
    if (name === 'ofType') return this.ofType(node);
    this.expect(')');
    switch (name) {
      case 'exists':
        return logic(c => run(c).length > 0);
      case 'empty':
        return logic(c => run(c).length === 0);
      case 'hasValue':
        return logic(c => {
          const found = run(c);
          return found.length === 1 && !isObject(found[0]);
        });
      case 'count':
        return { kind: 'items', run: c => [run(c).length], path: undefined };
      case 'first':
        return { kind: 'items', run: c => run(c).slice(0, 1), path };
      default:
        throw new Refused();
    }
  }

  /** The argument is evaluated on the context of the whole expression. */
  private intersect(run: (context: unknown) => Items): Node {
    const other = this.implies();
    this.expect(')');
    if (other.kind === 'truth') throw new Refused();
    return {
      kind: 'items',
      run: c => {
        const right = other.run(c);
        const left = run(c).filter(item => right.some(o => sameJson(item, o)));
        return left.filter((item, i) => left.findIndex(o => sameJson(item, o)) === i);
      },
      path: undefined,
    };
  }

  /** Of a choice: the member named after the type. */
  private ofType({ path, owners }: ItemsNode): Node {
    const type = this.next();
    this.expect(')');
    const last = path?.at(-1);
    if (!owners || !path || last === undefined) throw new Refused();
    const name = last + type.charAt(0).toUpperCase() + type.slice(1);
    const typed = [...path.slice(0, -1), name];
    if (this.isChoice(typed) !== false) throw new Refused();
    const step = memberOf(name);
    return { kind: 'items', run: c => owners(c).flatMap(step), path: typed };
  }

  private peek(): string | undefined {
    return this.tokens[this.at];
  }

  private next(): string {
    const token = this.tokens[this.at];
    if (token === undefined) throw new Refused();
    this.at += 1;
    return token;
  }

  private take(token: string): boolean {
    if (this.tokens[this.at] !== token) return false;
    this.at += 1;
    return true;
  }

  private expect(token: string): void {
    if (!this.take(token)) throw new Refused();
  }
}

function logic(run: Simple): Node {
  return { kind: 'truth', run };
}

/** A collection is no truth value here: FHIRPath's rule that one item counts as true is left to the library. */
function truth(node: Node): Simple {
  if (node.kind === 'items') throw new Refused();
  return node.run;
}
