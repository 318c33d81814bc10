import { editionOf } from '../../src/pipeline/own-package.js';
import type { ProfileExample } from './examples.js';
import { canonical, isProfile, packageName, type Raw, version } from './source.js';

/** Versions of the packages that the profiles stand on, as the package names them. */
export const dependencies = {
  'hl7.fhir.r4.core': '4.0.1',
  'hl7.terminology.r4': '7.0.1',
  'hl7.fhir.uv.extensions.r4': '5.3.0-ballot-tc1',
  'hl7.fhir.uv.ips': '2.0.0',
} as const;

/** Addresses of the guides that are packages of their own; the base release is none. */
const guides: Readonly<Record<string, string>> = {
  'hl7.terminology.r4': 'http://terminology.hl7.org/ImplementationGuide/hl7.terminology',
  'hl7.fhir.uv.extensions.r4': 'http://hl7.org/fhir/extensions/ImplementationGuide/hl7.fhir.uv.extensions',
  'hl7.fhir.uv.ips': 'http://hl7.org/fhir/uv/ips/ImplementationGuide/hl7.fhir.uv.ips',
};

/** Where the pages lie in the package. */
export const pageFolder = 'other';

const page = (name: string, title: string, within: readonly object[] = []) => ({
  nameUrl: `${pageFolder}/${name}.md`,
  title,
  generation: 'markdown',
  ...(within.length > 0 && { page: within }),
});

/** The ImplementationGuide that lists everything of the package. */
export function guide(resources: readonly Raw[], examples: readonly ProfileExample[]): Raw {
  return {
    resourceType: 'ImplementationGuide',
    id: packageName,
    url: `${canonical}/ImplementationGuide/${packageName}`,
    name: 'CasetallyProfiles',
    title: 'Casetally profiles',
    status: 'active',
    ...editionOf('ImplementationGuide', version()),
    description:
      'What the resources of an image-guided case guarantee: report, procedures, devices, aftercare, dose, contrast, registry entries.',
    packageId: packageName,
    license: 'Apache-2.0',
    fhirVersion: ['4.0.1'],
    dependsOn: Object.entries(guides).map(([packageId, uri]) => ({
      uri,
      packageId,
      version: dependencies[packageId as keyof typeof dependencies],
    })),
    definition: {
      resource: [
        ...resources.map(({ resourceType, id, title, name, description }) => ({
          reference: { reference: `${resourceType}/${id}` },
          name: title ?? name ?? id,
          ...(description !== undefined && { description }),
          exampleBoolean: false,
        })),
        ...examples.map(({ profile, resource }) => ({
          reference: { reference: `${resource.resourceType}/${resource.id}` },
          name: resource.id,
          exampleCanonical: profile,
        })),
      ],
      page: page('README', 'Casetally profiles', [
        ...resources.filter(isProfile).map(({ id, title }) => page(id, title)),
      ]),
    },
  };
}
