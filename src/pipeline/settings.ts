import type { AftercareOptions } from '../clinical/aftercare/aftercare.js';
import type { AssessOptions } from '../clinical/assess.js';
import { defaultLimits } from '../clinical/default-limits.js';
import { type ClinicalLimits, mergeLimits, publishedOnly } from '../clinical/limits.js';
import type { CatalogueRow } from '../devices/catalogue/row.js';
import { definitionIssuerUris, mappingIssuerUris } from '../devices/labels/issuers.js';
import type { SubmissionOptions } from '../fhir/bundles/submission.js';
import type { CodeOptions, MappingOptions } from '../fhir/options.js';
import type { ReportOptions } from '../report/options.js';
import type { Site } from '../site/site.js';

/** In which language patients have their letters, and whether it may be one that no clinician reviewed. */
export const lettersOf = ({ language, report }: Site) => ({ language, unreviewed: report.unreviewedLetters });

/** What the site's settings mean for the assessment. */
export function assessOptions(site: Site, catalogue?: ReadonlyMap<string, CatalogueRow>): AssessOptions {
  const { clinical, devices } = site;
  return {
    details: {
      siteKinds: Object.entries(devices.kinds).map(([name, family]) => ({ name, family })),
      ...(catalogue && { catalogue }),
      labels: {
        ...(devices.separators && { separatorAliases: devices.separators }),
        issuerUris: issuerUris(site),
        ...(site.coding.jurisdiction !== undefined && { jurisdiction: site.coding.jurisdiction }),
      },
    },
    limits: limitsOf(site),
    ...(clinical.adverseEventScales && { scales: clinical.adverseEventScales }),
    bleedingRisk: clinical.bleedingRisk,
    aftercare: planningOf(site),
    ...(site.contact !== undefined && { contact: site.contact }),
    expiresSoonDays: devices.expiresWithinDays,
    caseSystem: caseSystemOf(site),
  };
}

/** Entries that are set, so that an unset one does not hide a default. */
function present<T extends object>(settings: T): Present<T> {
  return Object.fromEntries(
    Object.entries(settings).filter(([, value]) => value !== undefined),
  ) as Present<T>;
}

type Present<T> = { [K in keyof T]: Exclude<T[K], undefined> };

function planningOf({ aftercare, timeZone }: Site): AftercareOptions {
  const { weekend, holidays, rules, skinReview, ifMissed } = aftercare;
  return {
    weekend,
    holidays,
    rules: rules.map(present),
    ...(skinReview && { skinReview: present(skinReview) }),
    ...(ifMissed !== undefined && { ifMissed }),
    timeZone,
  };
}

/** Defaults, without those from memory where the site does not want them, and the site's own over them. */
export function limitsOf({ clinical }: Site): ClinicalLimits {
  const { radiation, kidney, bleeding, drugs, outcome } = clinical;
  const base = clinical.limitsFromMemory ? defaultLimits : publishedOnly(defaultLimits);
  return mergeLimits(base, { radiation, kidney, bleeding, drugs, outcome });
}

const issuerUris = (site: Site) =>
  site.coding.issuers === 'mapping' ? mappingIssuerUris : definitionIssuerUris;

/** What the site's settings mean for the report. */
export function reportOptions(site: Site): ReportOptions {
  return { language: site.language, ...(site.contact !== undefined && { contact: site.contact }) };
}

/** Numbering system of a site's own case numbers. */
export const caseSystemOf = ({ identifiers, namespace }: Site): string =>
  identifiers.case ?? `urn:uuid:${namespace}`;

/** System of the identifiers that Casetally gives resources. */
export const resourceSystemOf = ({ identifiers, namespace }: Site): string =>
  identifiers.resource ?? `urn:uuid:${namespace}`;

/** What the site's settings mean for the resources. */
export function mappingOptions(site: Site, softwareVersion: string, sourceDigest?: string): MappingOptions {
  const { identifiers, organization } = site;
  return {
    namespace: site.namespace,
    identifiers: {
      case: caseSystemOf(site),
      ...(identifiers.accession !== undefined && { accession: identifiers.accession }),
      resource: resourceSystemOf(site),
    },
    references: site.references,
    issuerUris: issuerUris(site),
    ...(site.coding.jurisdiction !== undefined && { jurisdiction: site.coding.jurisdiction }),
    organization: {
      name: organization.name,
      ...(organization.identifier && { identifier: organization.identifier }),
      ...(organization.phone !== undefined && { phone: organization.phone }),
    },
    ...(site.contact !== undefined && { contact: site.contact }),
    ...codeOptionsOf(site),
    ...(site.fhir.documentType && { documentType: site.fhir.documentType }),
    ...(site.fhir.facilityType && { facilityType: site.fhir.facilityType }),
    ...canonicalOf(site),
    ...(site.fhir.negativeStatements && { negativeStatements: true }),
    ...(site.report.diagnosticReport && { diagnosticReport: true }),
    language: site.language,
    softwareVersion,
    ...(sourceDigest !== undefined && { sourceDigest }),
  };
}

/** Which codes may be sent, and those of the site. */
export const codeOptionsOf = (site: Site): CodeOptions => ({
  localCodes: site.coding.local,
  ...(site.fhir.snomedLicence && { snomedLicence: true }),
  ...(site.fhir.codesFromMemory && { codesFromMemory: true }),
});

/** Under which the profiles and code systems of the site are published, where it says so. */
export const canonicalOf = ({ fhir: { canonical } }: Site): { readonly canonical?: string } =>
  canonical === undefined ? {} : { canonical };

/** What the site's settings mean for the submission. @param sent addresses of what went there before */
export function submissionOptions(site: Site, sent: ReadonlySet<string>): SubmissionOptions {
  return { references: site.references, wanted: site.fhir, sent };
}
