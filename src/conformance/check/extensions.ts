import type { Structure } from '../definitions/model.js';
import type { Def } from '../schema/definition.js';
import type { Plan } from '../schema/plan.js';
import type { Place } from './place.js';
import type { Run } from './run.js';

/**
 * Finds the definition of an extension and checks that it stands where it may. Gives the definitions
 * to apply to it in addition to the plain Extension.
 */
export function extensionDefs(
  run: Run,
  value: Readonly<Record<string, unknown>>,
  parent: Plan,
  place: Place,
  modifier: boolean,
  sliced: boolean,
): readonly Def[] {
  const { url } = value;
  if (typeof url !== 'string') return [];
  run.rules.add('extension-context');
  const member = { owner: value, key: 'url' };
  if (!/^[A-Za-z][A-Za-z0-9+.-]*:/.test(url)) {
    // Parts of a complex extension have short names and are defined by its slices.
    if (parent.type === 'Extension' && sliced) return [];
    if (parent.type === 'Extension') partProblem(run, url, parent, place, member);
    else run.report('conformance.extension-url', place, { url }, { member });
    return [];
  }
  const tree = run.planner.tree(url, false);
  if (!tree) {
    const code = modifier ? 'conformance.extension-modifier-unknown' : 'conformance.extension-unknown';
    if (modifier || run.once(`extension|${url}`)) run.report(code, place, { url }, { member });
    return [];
  }
  const isModifier = tree.root.element.isModifier === true;
  if (isModifier !== modifier) {
    const expected = isModifier ? 'modifierExtension' : 'extension';
    run.report('conformance.extension-modifier', place, { url, expected }, { def: tree.root, member });
  }
  checkContext(run, url, tree.structure, tree.root, parent, place, member);
  return [tree.root];
}

function partProblem(run: Run, url: string, parent: Plan, place: Place, member: Member): void {
  const defined = parent.defs.find(
    d => d.structure.type === 'Extension' && d.structure.derivation === 'constraint',
  );
  if (!defined) return;
  const params = { url, extension: defined.structure.url };
  run.report('conformance.extension-part', place, params, { def: defined, member });
}

interface Member {
  readonly owner: object;
  readonly key: string;
}

function checkContext(
  run: Run,
  url: string,
  structure: Structure,
  def: Def,
  parent: Plan,
  place: Place,
  member: Member,
): void {
  // An address without version means any of the loaded versions.
  const contexts = run.planner.definitions.versions(structure.url).flatMap(s => s.context ?? []);
  if (contexts.length === 0) return;
  const allowed = contexts.some(c => {
    if (c.type === 'extension') return parent.defs.some(d => d.structure.url === c.expression);
    if (c.type === 'element') return standsOn(parent, c.expression);
    // FHIRPath contexts are written against the resource; a plain path is an element path.
    return !/^[A-Za-z.]+$/.test(c.expression) || standsOn(parent, c.expression);
  });
  if (allowed) return;
  const where = parent.defs.find(d => d.element.path.includes('.'))?.element.path ?? parent.type;
  const params = { url, where, allowed: contexts.map(c => c.expression).join(', ') };
  run.report('conformance.extension-context', place, params, { def, member });
}

/** True when `expression` names this element, its type or one of its ancestors. */
function standsOn(parent: Plan, expression: string): boolean {
  const plain = expression.replace(/^http:\/\/hl7\.org\/fhir\/StructureDefinition\//, '');
  if (parent.ancestry.includes(plain)) return true;
  // Every element is an Element, also those of types that the snapshot names BackboneElement.
  if (plain === 'Element') return parent.kind !== 'resource';
  if (plain === 'CanonicalResource' || plain === 'MetadataResource')
    return parent.slots.some(s => s.name === 'url');
  return parent.defs.some(
    d => d.element.path === plain || d.element.path === `${plain}[x]` || d.element.id === plain,
  );
}
