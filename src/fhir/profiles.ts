/** International Patient Summary profiles that the resources are built to. */
export const IPS = {
  procedure: 'http://hl7.org/fhir/uv/ips/StructureDefinition/Procedure-uv-ips',
  device: 'http://hl7.org/fhir/uv/ips/StructureDefinition/Device-uv-ips',
  deviceUse: 'http://hl7.org/fhir/uv/ips/StructureDefinition/DeviceUseStatement-uv-ips',
} as const;

/**
 * Under which our profiles and code systems are published where the site names no address of its own. The host is one
 * that nobody can own (RFC 2606): a site that sends claims of profiles to others sets `fhir.canonical`.
 */
export const OWN_BASE = 'https://casetally.example/fhir';

/** Address of a conformance resource of ours. */
const ownAddress = (type: string, id: string, base: string = OWN_BASE): string => `${base}/${type}/${id}`;

/** Address of one of our profiles or extensions. */
export const ownProfile = (id: string, base?: string): string => ownAddress('StructureDefinition', id, base);

/** Address of one of our code systems. */
export const ownCodeSystem = (id: string, base?: string): string => ownAddress('CodeSystem', id, base);

/** True for a profile of Casetally's own, which a server knows only where it was loaded. */
export const isOwnProfile = (canonical: string, base?: string): boolean =>
  canonical.startsWith(ownProfile('', base));

/** FHIR JSON that we publish, under the address of a site. */
export const underBase = (json: string, base: string = OWN_BASE): string =>
  base === OWN_BASE ? json : json.replaceAll(`"${OWN_BASE}`, `"${base}`);

/** Our profiles by role; those that stand on a patient summary profile are claimed only together with it. */
const byRole: readonly { readonly role: RegExp; readonly profile: string; readonly withIps?: true }[] = [
  { role: /^composition$/, profile: 'procedure-report' },
  { role: /^procedure$/, profile: 'case-procedure', withIps: true },
  { role: /^procedure\//, profile: 'component-procedure', withIps: true },
  { role: /^device\//, profile: 'case-device', withIps: true },
  // Of no patient, which the patient summary profile asks for.
  { role: /^device\//, profile: 'used-device' },
  { role: /^use\//, profile: 'device-use', withIps: true },
  { role: /^aftercare$/, profile: 'aftercare-plan' },
  { role: /^aftercare\//, profile: 'aftercare-item' },
  { role: /^task\//, profile: 'aftercare-task' },
  { role: /^observation\/radiation$/, profile: 'dose-summary' },
  { role: /^observation\/radiation\/earlier-/, profile: 'dose-earlier' },
  {
    role: /^observation\/(kerma-area-product|air-kerma|fluoroscopy-time|frames|peak-skin-dose|dose-length-product|ct-dose-index)$/,
    profile: 'dose-figure',
  },
  { role: /^contrast\//, profile: 'contrast-given' },
  { role: /^calculation\//, profile: 'worked-out' },
  { role: /^document-reference$/, profile: 'report-document-reference' },
];

/**
 * What a resource claims: the patient summary profile it was mapped with, and ours for its role (see `profiles/`).
 * @param base under which ours are published
 */
export function claimed(role: string, mapped: readonly string[] = [], base?: string): string[] {
  const own = byRole.find(row => row.role.test(role) && (row.withIps === undefined || mapped.length > 0));
  return [...mapped, ...(own ? [ownProfile(own.profile, base)] : [])];
}
