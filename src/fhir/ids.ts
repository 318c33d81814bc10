import { createHash } from 'node:crypto';
import { v5 } from 'uuid';

/**
 * Id of one resource of a case: UUIDv5 of the site's namespace, the case and the role, so that preparing a case
 * twice gives the same ids. The name is a JSON list: no two pairs of texts give the same one.
 */
export function caseUuid(namespace: string, caseId: string, role: string): string {
  return v5(JSON.stringify([caseId, role]), namespace);
}

/** SHA-1 of the bytes in base64, as FHIR R4's Attachment.hash has it. */
export function sha1Base64(bytes: Uint8Array): string {
  return createHash('sha1').update(bytes).digest('base64');
}
