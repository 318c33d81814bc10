import { define } from '../define.js';

const R4 = 'http://hl7.org/fhir/R4';
const TYPES = `${R4}/datatypes.html`;
const ELEMENT = `${R4}/elementdefinition.html`;
const REFERENCES = `${R4}/references.html`;
const BUNDLE = `${R4}/bundle.html`;
const HTTP = `${R4}/http.html`;
const XHTML = `${R4}/narrative.html`;

/** Wording of the conformance findings about single types, references, bundles, narratives and waivers. */
export const conformanceBundleWording = define({
  'conformance.identifier-system': {
    severity: 'error',
    message: 'Identifier.system "{system}" is not an absolute address',
    remedy: 'Write the full address, urn:oid:… or urn:uuid:… of the namespace.',
    basis: `${TYPES}#Identifier (system)`,
  },
  'conformance.identifier-value': {
    severity: 'error',
    message: 'The identifier "{value}" of system urn:ietf:rfc:3986 is not a full URI',
    remedy: 'Write the value as a URI, for example urn:uuid:… or urn:oid:….',
    basis: `${TYPES}#Identifier (value)`,
  },
  'conformance.canonical-relative': {
    severity: 'error',
    message: 'The canonical address "{value}" is neither absolute nor a fragment',
    remedy: 'Write the full canonical address.',
    basis: `${R4}/references.html#canonical`,
  },
  'conformance.attachment-hash': {
    severity: 'error',
    message: 'The hash of the attachment does not match its data (SHA-1 of the data is {expected})',
    remedy: 'Calculate the hash over the data before base64, and write it in base64.',
    basis: `${TYPES}#Attachment (hash)`,
  },
  'conformance.attachment-size': {
    severity: 'error',
    message: 'The size of the attachment is {found}, but its data has {expected} bytes',
    remedy: 'Write the number of bytes before base64.',
    basis: `${TYPES}#Attachment (size)`,
  },
  'conformance.reference-format': {
    severity: 'error',
    message: '"{reference}" is not a reference: {problem}',
    remedy: 'Write Type/id, an absolute address, urn:uuid:…, urn:oid:… or #id.',
    basis: `${REFERENCES}#literal`,
  },
  'conformance.reference-type': {
    severity: 'error',
    message: 'The reference points to a {found}; allowed: {allowed}',
    remedy: 'Refer to a resource of an allowed type.',
    basis: `${ELEMENT} (type.targetProfile)`,
  },
  'conformance.reference-type-mismatch': {
    severity: 'error',
    message: 'Reference.type says {said}, but the reference points to a {found}',
    remedy: 'Correct type or reference.',
    basis: `${REFERENCES}#Reference (type)`,
  },
  'conformance.reference-profile': {
    severity: 'error',
    message: 'The resource referred to conforms to none of: {profiles}; first reason: {reason}',
    remedy: 'Make the target conform, or refer to another resource.',
    basis: `${ELEMENT} (type.targetProfile)`,
  },
  'conformance.reference-contained': {
    severity: 'error',
    message: 'No contained resource has the id "{id}"',
    remedy: 'Contain the resource or correct the reference.',
    basis: `${REFERENCES}#contained; ref-1`,
  },
  'conformance.reference-aggregation': {
    severity: 'error',
    message: 'The reference is {found}; allowed: {allowed}',
    remedy: 'Refer in an allowed way.',
    basis: `${ELEMENT} (type.aggregation)`,
  },
  'conformance.reference-urn': {
    severity: 'error',
    message: 'No entry of the Bundle has the fullUrl {reference}',
    remedy: 'Add the entry or correct the reference.',
    basis: `${BUNDLE}#references`,
  },
  'conformance.contained-id': {
    severity: 'error',
    message: '{problem}',
    remedy: 'Give each contained resource an id of its own.',
    basis: `${REFERENCES}#contained`,
  },
  'conformance.bundle-full-url': {
    severity: 'error',
    message: 'The fullUrl "{fullUrl}" is not usable: {problem}',
    remedy: 'Write an absolute address or urn:uuid:… of the entry.',
    basis: `${BUNDLE}#bundle-unique`,
  },
  'conformance.bundle-full-url-missing': {
    severity: 'error',
    message: 'The entry has no fullUrl',
    remedy: 'Only batch, transaction and responses may leave it out: give the identity of the resource.',
    basis: `${BUNDLE} (entry.fullUrl)`,
  },
  'conformance.bundle-id-mismatch': {
    severity: 'error',
    message: 'The fullUrl ends in {tail}, but the resource is {found}',
    remedy: 'Make the last two parts of fullUrl the type and id of the resource.',
    basis: `${BUNDLE} (entry.fullUrl)`,
  },
  'conformance.bundle-unreachable': {
    severity: 'error',
    message: 'The entry {entry} cannot be reached by references from the Composition',
    remedy: 'Refer to it from the Composition or leave it out.',
    basis: `${R4}/documents.html#content`,
  },
  'conformance.bundle-missing-entry': {
    severity: 'error',
    message: 'The document does not hold {reference}, to which its {from} refers',
    remedy: 'Include the resource in the document.',
    basis: `${R4}/documents.html#content`,
  },
  'conformance.bundle-request': {
    severity: 'error',
    message: 'The request {method} {url} is not usable: {problem}',
    remedy: 'Write the request as the RESTful interface asks.',
    basis: `${HTTP}#transaction`,
  },
  'conformance.bundle-identity-twice': {
    severity: 'error',
    message: 'The transaction writes {identity} more than once (also in entry {other})',
    remedy: 'Write each resource once in a transaction.',
    basis: `${HTTP}#trules`,
  },
  'conformance.bundle-create-twice': {
    severity: 'warning',
    message:
      'The transaction creates {criteria} more than once if it is not there (also in entry {other}): a server makes two',
    remedy: 'Create the resource once, and refer to that entry.',
    basis: `${HTTP}#trules`,
  },
  'conformance.bundle-batch-reference': {
    severity: 'warning',
    message:
      'The entry refers to entry {other} of the same batch, whose id is not known before the batch is done',
    remedy: 'Use a transaction, or refer to resources that exist.',
    basis: `${HTTP}#brules`,
  },
  'conformance.conditional-reference': {
    severity: 'error',
    message: 'The conditional reference {reference} is allowed in a transaction only',
    remedy: 'Refer by address, or send a transaction.',
    basis: `${HTTP}#trules`,
  },
  'conformance.narrative-xml': {
    severity: 'error',
    message: 'The narrative is not well-formed XHTML: {problem}',
    remedy: 'Mend the markup.',
    basis: `${XHTML}#xhtml`,
  },
  'conformance.narrative-root': {
    severity: 'error',
    message: 'The narrative must be one div in the XHTML namespace, found {found}',
    remedy: 'Write <div xmlns="http://www.w3.org/1999/xhtml">…</div>.',
    basis: `${XHTML}#xhtml`,
  },
  'conformance.narrative-element': {
    severity: 'error',
    message: 'The narrative may not hold the element {element} (txt-1)',
    remedy: 'Use basic formatting elements of chapters 7 to 11 and 15 of HTML 4.0 only.',
    basis: `${XHTML}#xhtml (txt-1)`,
  },
  'conformance.narrative-attribute': {
    severity: 'error',
    message: 'The narrative may not hold the attribute {attribute} on {element} (txt-1)',
    remedy: 'Remove the attribute.',
    basis: `${XHTML}#xhtml (txt-1)`,
  },
  'conformance.narrative-empty': {
    severity: 'error',
    message: 'The narrative has no text and no image (txt-2)',
    remedy: 'Write some text, or leave the narrative out.',
    basis: `${XHTML}#xhtml (txt-2)`,
  },
  'conformance.narrative-link': {
    severity: 'error',
    message: 'The link or image address "{target}" {problem}',
    remedy: 'Point to an id of this narrative, a contained resource or a safe absolute address.',
    basis: `${XHTML}#security and ${XHTML}#xhtml`,
  },
  'conformance.narrative-id': {
    severity: 'warning',
    message: 'The id "{id}" is used twice in the narrative',
    remedy: 'Use each id once.',
    basis: `${XHTML}#id`,
  },
  'conformance.waiver-expired': {
    severity: 'warning',
    message: 'The waiver of {rule} on {where} expired on {expires}',
    remedy: 'Review it: mend what it excuses, or renew it with a reason.',
    basis: 'the reviewed list of waivers',
  },
  'conformance.waiver-unused': {
    severity: 'information',
    message: 'The waiver of {rule} on {where} excused nothing',
    remedy: 'Remove it if it is no longer needed.',
    basis: 'the reviewed list of waivers',
  },
});
