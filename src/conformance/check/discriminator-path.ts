/** One step of a discriminator's path. Source: R4 profiling page, discriminator: a restricted FHIRPath. */
export type Step =
  | { readonly kind: 'this' }
  | { readonly kind: 'resolve' }
  | { readonly kind: 'child'; readonly name: string }
  | { readonly kind: 'extension'; readonly name: string }
  | { readonly kind: 'type'; readonly name: string };

const STEP = /(\w+|\$this)(?:\(\s*(?:'([^']*)'|([\w.]*))\s*\))?(?:\.|$)/y;

/** Reads `code.coding.system`, `resolve().code`, `extension('url').value`, `value.ofType(Quantity)`. */
export function parsePath(path: string): readonly Step[] {
  const steps: Step[] = [];
  STEP.lastIndex = 0;
  while (STEP.lastIndex < path.length) {
    const found = STEP.exec(path);
    if (!found) break;
    const [, word = '', quoted, name = ''] = found;
    steps.push(stepOf(word, quoted ?? name));
  }
  return steps;
}

function stepOf(word: string, argument: string): Step {
  switch (word) {
    case '$this':
      return { kind: 'this' };
    case 'resolve':
      return { kind: 'resolve' };
    case 'extension':
      return argument === '' ? { kind: 'child', name: word } : { kind: 'extension', name: argument };
    case 'ofType':
    case 'as':
      return { kind: 'type', name: argument };
    default:
      return { kind: 'child', name: word.replace(/\[x\]$/, '') };
  }
}
