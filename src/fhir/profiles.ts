/** International Patient Summary profiles that the resources are built to. */
export const IPS = {
  procedure: 'http://hl7.org/fhir/uv/ips/StructureDefinition/Procedure-uv-ips',
  device: 'http://hl7.org/fhir/uv/ips/StructureDefinition/Device-uv-ips',
  deviceUse: 'http://hl7.org/fhir/uv/ips/StructureDefinition/DeviceUseStatement-uv-ips',
} as const;
