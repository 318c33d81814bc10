import type { BodyStructure, CodeableConcept, Extension } from 'fhir/r4.js';
import type { Coded } from '../../record/schema/fields.js';
import { sideCodes } from '../codes/sites.js';
import { knownConcept } from '../concept.js';
import { siteCoded } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { sided } from '../events.js';

type Side = 'left' | 'right' | 'both' | 'midline' | undefined;

/**
 * A body site in words and codes. The side goes into the words, and into the code where one has both: R4 has no other
 * place for it here (its extensions of sides are for the sites of other resources).
 */
export function siteConcept(context: MappingContext, site: Coded, side?: Side): CodeableConcept {
  return { ...siteCoded(context.options, site, side), text: sided(site.text, side) };
}

/** The side of a place that is told in the words of a target. */
export function sideOfTarget({ record }: MappingContext, site: Coded): Side {
  const targets = Object.values(record.targets ?? {});
  const itself = targets.find(({ what }) => what === site);
  if (itself) return itself.side;
  const sides = new Set(targets.filter(({ what }) => what.text === site.text).map(({ side }) => side));
  return sides.size === 1 ? [...sides][0] : undefined;
}

/** One BodyStructure for each access and target with a side: the coded laterality. */
export function addBodySites(context: MappingContext): void {
  for (const [index, access] of (context.record.access ?? []).entries())
    addSite(context, `site/access/${access.key}`, access.site, access.side, `access[${index}]`);
  for (const [key, target] of Object.entries(context.record.targets ?? {}))
    addSite(context, `site/target/${key}`, target.what, target.side, `targets.${key}`);
}

function addSite(context: MappingContext, role: string, site: Coded, side: Side, from: string): void {
  const code = codeOfSide(side);
  if (!code) return;
  const resource: BodyStructure = {
    resourceType: 'BodyStructure',
    identifier: [context.identifier(role)],
    location: siteCoded(context.options, site),
    locationQualifier: [knownConcept(code, side)],
    patient: context.ref('patient'),
  };
  context.add(role, resource, {
    from,
    sources: { locationQualifier: `${from}.side` },
    summary: [sided(site.text, side)],
  });
}

function codeOfSide(side: Side) {
  return side === undefined || side === 'midline' ? undefined : sideCodes[side];
}

/** The extension by which a Procedure points at the BodyStructures of its accesses and targets. */
export function siteExtensions(
  context: MappingContext,
  sites: readonly { readonly role: string; readonly side: Side }[],
): Extension[] {
  return sites
    .filter(({ side }) => codeOfSide(side))
    .map(({ role }) => ({
      url: 'http://hl7.org/fhir/StructureDefinition/procedure-targetBodyStructure',
      valueReference: context.ref(role),
    }));
}
