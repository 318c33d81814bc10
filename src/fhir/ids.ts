import { createHash } from 'node:crypto';
import { v5 } from 'uuid';
import { remembered } from '../record/remembered.js';

/**
 * Id of one resource of a case: UUIDv5 of the site's namespace, the case and the role, so that preparing a case
 * twice gives the same ids. The name is a JSON list: no two pairs of texts give the same one.
 */
export const caseUuid = (namespace: string, caseId: string, role: string): string =>
  uuidOf(`${namespace} ${JSON.stringify([caseId, role])}`);

/** A resource is referred to more often than it is made. */
const uuidOf = remembered(text => {
  const end = text.indexOf(' ');
  return v5(text.slice(end + 1), text.slice(0, end));
});

/** SHA-1 of the bytes in base64, as FHIR R4's Attachment.hash has it. */
export function sha1Base64(bytes: Uint8Array): string {
  return createHash('sha1').update(bytes).digest('base64');
}
