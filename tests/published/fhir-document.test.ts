import { readFileSync } from 'node:fs';
import type { Bundle, Composition, Resource } from 'fhir/r4.js';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4';
import { describe, expect, it } from 'vitest';
import { documentBundle } from '../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import { exampleNames, exampleText, mapped, options, resourcesOf } from '../fhir/cases.js';

/*
 * The invariants that FHIR R4 (4.0.1) publishes in its StructureDefinitions (package hl7.fhir.r4.examples), evaluated
 * with the general FHIRPath library; and the rules for documents of https://hl7.org/fhir/R4/documents.html.
 */
interface Constraint {
  readonly key: string;
  readonly severity: string;
  readonly expression?: string;
}
interface Definition {
  readonly snapshot: {
    readonly element: readonly { readonly path: string; readonly constraint?: readonly Constraint[] }[];
  };
}

const definitions = new Map<string, Definition>();

function definitionOf(type: string): Definition {
  const known = definitions.get(type);
  if (known) return known;
  const file = new URL(
    `../../node_modules/hl7.fhir.r4.examples/StructureDefinition-${type}.json`,
    import.meta.url,
  );
  const read: Definition = JSON.parse(readFileSync(file, 'utf8'));
  definitions.set(type, read);
  return read;
}

/** Invariants of the type's own definition: those of elements everywhere (ele-1, ext-1) and of text are others' tests. */
function own(constraint: Constraint): boolean {
  return (
    constraint.severity === 'error' &&
    constraint.expression !== undefined &&
    !/^(ele|ext|dom|ref|txt)-/.test(constraint.key) &&
    !constraint.expression.includes('resolve()')
  );
}

/** Keys of the invariants that were evaluated, and those that failed. */
function checked(resource: Resource): { keys: string[]; failed: string[] } {
  const keys: string[] = [];
  const failed: string[] = [];
  for (const { path, constraint = [] } of definitionOf(resource.resourceType).snapshot.element)
    for (const { key, expression = '' } of constraint.filter(own)) {
      const rest = path.slice(resource.resourceType.length + 1);
      if (rest.includes('[x]')) continue;
      const where = rest === '' ? '' : `${rest}.`;
      const all: unknown = fhirpath.evaluate(
        resource,
        `${where}all(${expression})`,
        { resource, rootResource: resource },
        r4,
      );
      keys.push(key);
      if (Array.isArray(all) && all[0] === false)
        failed.push(`${resource.resourceType}${rest && `.${rest}`}: ${key}`);
    }
  return { keys, failed };
}

const cases = exampleNames.map(name => {
  const { set } = mapped(exampleText(name));
  return { name, document: documentBundle(set), submission: submissionBundle(set, options) };
});

describe.each(cases)('$name', ({ document, submission }) => {
  it('keeps the published invariants of its types', () => {
    const others = resourcesOf(submission).filter(({ resourceType }) =>
      ['DocumentReference', 'Provenance'].includes(resourceType),
    );
    const results = [document, submission, ...resourcesOf(document), ...others].map(checked);
    expect(results.flatMap(({ failed }) => failed)).toEqual([]);
    const keys = new Set(results.flatMap(result => result.keys));
    for (const key of ['bdl-7', 'bdl-9', 'bdl-10', 'bdl-11', 'cmp-1', 'cmp-2', 'obs-6', 'mad-1', 'ppc-1'])
      expect([...keys], key).toContain(key);
  });

  it('is a document: Composition first, its own identifier, a time not before the Composition', () => {
    const first = resourcesOf(document)[0];
    const composition = isComposition(first) ? first : undefined;
    expect(composition?.title).toBeTruthy();
    expect(document.identifier?.value).toBeTruthy();
    expect(Date.parse(document.timestamp ?? '')).toBeGreaterThanOrEqual(Date.parse(composition?.date ?? ''));
    expect(resourcesOf(document).filter(isComposition)).toHaveLength(1);
  });

  it('holds what the Composition refers to: subject, encounter, author, attester, custodian, event, entries', () => {
    const urls = new Set((document.entry ?? []).map(entry => entry.fullUrl));
    const [composition] = resourcesOf(document).filter(isComposition);
    const direct = [
      composition?.subject,
      composition?.encounter,
      ...(composition?.author ?? []),
      composition?.attester?.[0]?.party,
      composition?.custodian,
      ...(composition?.event?.[0]?.detail ?? []),
      ...sectionEntries(composition),
    ].flatMap(reference => (reference?.reference === undefined ? [] : [reference.reference]));
    expect(direct.length).toBeGreaterThan(10);
    expect(direct.filter(address => !urls.has(address))).toEqual([]);
  });
});

describe('the check itself', () => {
  it('sees a document without identifier, timestamp and Composition', () => {
    const bundle: Bundle = {
      resourceType: 'Bundle',
      type: 'document',
      entry: [{ resource: { resourceType: 'Patient' } }],
    };
    expect(checked(bundle).failed).toEqual(
      expect.arrayContaining(['Bundle: bdl-9', 'Bundle: bdl-10', 'Bundle: bdl-11']),
    );
  });
});

function isComposition(resource: Resource | undefined): resource is Composition {
  return resource?.resourceType === 'Composition';
}

function sectionEntries(composition: Composition | undefined) {
  const sections = composition?.section ?? [];
  return [...sections, ...sections.flatMap(section => section.section ?? [])].flatMap(
    ({ entry }) => entry ?? [],
  );
}
