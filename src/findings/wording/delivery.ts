import { COMMON_PRACTICE, define } from '../define.js';

const R4_TRANSACTION = 'FHIR R4, RESTful API, transaction: https://hl7.org/fhir/R4/http.html#transaction';
const R4_COND_CREATE = 'FHIR R4, RESTful API, conditional create: https://hl7.org/fhir/R4/http.html#ccreate';
const RFC9110 = 'RFC 9110, HTTP Semantics';

/** Wording of the delivery findings. */
export const deliveryWording = define({
  'delivery.address-unreadable': {
    severity: 'error',
    message: 'The address "{address}" is not an http or https address of a FHIR server.',
    remedy: 'Write the base address in full, such as https://fhir.example.org/r4.',
    basis: 'FHIR R4, RESTful API, service base URL: https://hl7.org/fhir/R4/http.html#root',
  },
  'delivery.address-not-plain': {
    severity: 'error',
    message: 'The address at {host} carries a user name, a query or a fragment; a base address has none.',
    remedy:
      'Give the plain base address; credentials belong in the destination of the site file, by reference.',
    basis: 'FHIR R4, RESTful API, service base URL: https://hl7.org/fhir/R4/http.html#root',
  },
  'delivery.address-not-secure': {
    severity: 'error',
    message: 'The address at {host} is plain http: patient data would cross the network readable by others.',
    remedy: 'Use https. Plain http is taken only on this machine itself.',
    basis: 'FHIR R4, Security, communications: https://hl7.org/fhir/R4/security.html#http',
  },
  'delivery.not-a-submission': {
    severity: 'error',
    message: 'What should go to {destination} is not a FHIR transaction Bundle.',
    remedy: 'Prepare the case anew and send the submission.json that comes of it.',
    basis: R4_TRANSACTION,
  },
  'delivery.circle': {
    severity: 'error',
    message:
      'Resources of the case refer to each other in a circle, which {destination} cannot take one by one.',
    remedy: 'Set the mode of the destination to transaction, or ask those who run it for transactions.',
    basis: R4_TRANSACTION,
  },
  'delivery.over-limit': {
    severity: 'error',
    message: 'The submission has {size}; {destination} takes at most {limit}.',
    remedy:
      'Name fewer pictures where it has too many bytes, or raise the limit of the destination when the server takes more.',
    basis: COMMON_PRACTICE,
  },
  'delivery.refused': {
    severity: 'error',
    message: '{destination} refused the submission ({status}); it holds nothing of it.',
    remedy: 'Mend what the server names below and send again.',
    basis: R4_TRANSACTION,
  },
  'delivery.too-large': {
    severity: 'error',
    message: '{destination} refused the submission as too large ({status}).',
    remedy: 'Name fewer pictures in the record, or have the limit of the server raised.',
    basis: RFC9110,
  },
  'delivery.redirected': {
    severity: 'error',
    message:
      '{destination} points to another address ({status}); redirects are not followed, nothing was sent on.',
    remedy:
      'Set the address of the destination to where the server really is, once you know that it is yours.',
    basis: RFC9110,
  },
  'delivery.reference-not-found': {
    severity: 'error',
    message: '{destination} knows nobody or nothing under an identifier that the case refers to ({status}).',
    remedy:
      'Check the identifiers of patient, order, encounter and team. Have what is missing registered there first, or let the case bring the patient with `references.patient: include` in the settings of the destination.',
    basis: 'FHIR R4, RESTful API, conditional references: https://hl7.org/fhir/R4/http.html#trules',
  },
  'delivery.target-missing': {
    severity: 'error',
    message:
      '{destination} holds no {type} under the identifier or address that the case refers to. Nothing was sent.',
    remedy:
      'Check the identifier. Then one of two ways: have the {type} registered there; or let the case bring it, with `references.{setting}: include` in the settings of the destination.',
    basis: 'FHIR R4, RESTful API, conditional references: https://hl7.org/fhir/R4/http.html#trules',
  },
  'delivery.target-several': {
    severity: 'error',
    message:
      '{destination} holds {count} {type} resources under one identifier: {addresses}. Nothing was sent.',
    remedy: 'Have the duplicates merged there; Casetally does not choose between them.',
    basis: 'FHIR R4, RESTful API, conditional references: https://hl7.org/fhir/R4/http.html#trules',
  },
  'delivery.target-merged': {
    severity: 'error',
    message: '{destination} has merged {address} into {other}. Nothing was sent.',
    remedy: 'Find out which {type} is meant and use its identifier.',
    basis: 'FHIR R4, Patient.link: https://hl7.org/fhir/R4/patient.html#links',
  },
  'delivery.target-inactive': {
    severity: 'error',
    message: '{destination} holds {address} as no longer in use. Nothing was sent.',
    remedy: 'Find out which {type} is meant and use its identifier.',
    basis: 'FHIR R4, Patient.active: https://hl7.org/fhir/R4/patient-definitions.html#Patient.active',
  },
  'delivery.match-differs': {
    severity: 'error',
    message: '{address} at {destination} has another {field}: {sent} in the record, {held} there.',
    remedy: 'Look whether the number is the right one. Correct the record or what is there; send again.',
    basis: COMMON_PRACTICE,
  },
  'delivery.match-near': {
    severity: 'warning',
    message: '{address} at {destination} has nearly the same {field}: {sent} in the record, {held} there.',
    remedy: 'Where it is right: casetally outbox retry ITEM --accept {field} --by NAME --why TEXT.',
    basis: COMMON_PRACTICE,
  },
  'delivery.not-compared': {
    severity: 'warning',
    message: '{destination} does not tell {what} of the {type}: it was not compared with the record.',
    remedy: 'Look at the destination whether the case is under the right patient.',
    basis: COMMON_PRACTICE,
  },
  'delivery.case-of-another-patient': {
    severity: 'error',
    message: '{destination} has this case under another patient ({address}, {patient}).',
    remedy: 'A case stays with its patient. To move it to another: casetally move OLD NEW.',
    basis: COMMON_PRACTICE,
  },
  'delivery.partial': {
    severity: 'error',
    message: '{destination} took only a part of the submission, or did not treat it as a whole ({status}).',
    remedy: 'Look at what it holds, listed below, before anything is sent again.',
    basis: R4_TRANSACTION,
  },
  'delivery.echoed': {
    severity: 'error',
    message: '{destination} stored the submission as a document instead of carrying it out ({status}).',
    remedy: 'The address is not the base of a FHIR server that takes transactions: correct it.',
    basis: R4_TRANSACTION,
  },
  'delivery.outcome-unknown': {
    severity: 'error',
    message: 'It is not known whether {destination} took the submission ({status}).',
    remedy:
      'Do not enter the case by hand. Send it again later: what is there already is found by its identifiers.',
    basis: COMMON_PRACTICE,
  },
  'delivery.several-matches': {
    severity: 'error',
    message:
      '{destination} has several resources under one identifier of the case and cannot choose ({status}).',
    remedy: 'Have the duplicates merged or retired at the destination, then send again.',
    basis: R4_COND_CREATE,
  },
  'delivery.several-held': {
    severity: 'error',
    message:
      '{destination} holds {count} {resource} resources with the same identifier of {system}: {addresses}.',
    remedy: 'Have the duplicates merged or retired there, then send again.',
    basis: R4_COND_CREATE,
  },
  'delivery.gone': {
    severity: 'error',
    message:
      'Something of this case was removed at {destination} ({status}); it is not made again by itself.',
    remedy: 'Find out there why it was removed before you send again.',
    basis: 'FHIR R4, RESTful API, delete: https://hl7.org/fhir/R4/http.html#delete',
  },
  'delivery.throttled': {
    severity: 'error',
    message: '{destination} takes nothing more for now ({status}) and asks to wait {wait}.',
    remedy: 'Send again after that time.',
    basis: 'RFC 6585, 429 Too Many Requests',
  },
  'delivery.unreachable': {
    severity: 'error',
    message: '{destination} could not be reached: {cause}. Nothing was sent.',
    remedy: 'Check the address and the network, then send again.',
    basis: COMMON_PRACTICE,
  },
  'delivery.certificate': {
    severity: 'error',
    message: 'The certificate of {destination} is not trusted or is for another name. Nothing was sent.',
    remedy: 'Check the address; for a private certificate authority name its certificate in the destination.',
    basis: 'RFC 9110, 4.3.4, https certificate verification',
  },
  'delivery.unauthorised': {
    severity: 'error',
    message: '{destination} does not accept the credentials ({status}).',
    remedy: 'Check the authorization of the destination in the site file and the secrets it refers to.',
    basis: RFC9110,
  },
  'delivery.token-refused': {
    severity: 'error',
    message: 'The authorisation server of {destination} gives no token to this sender. Nothing was sent.',
    remedy: 'Check client id, key or secret, scope and clock; the public key must be registered there.',
    basis:
      'SMART App Launch 2.1, Backend Services: https://hl7.org/fhir/smart-app-launch/STU2.1/backend-services.html',
  },
  'delivery.secret-missing': {
    severity: 'error',
    message: 'The secret {reference} of destination {destination} was not found: nothing is at {where}.',
    remedy:
      'Set that environment variable, or make that file readable for this user. A relative path starts from the folder of the site configuration.',
    basis: 'the site configuration',
  },
  'delivery.header-not-allowed': {
    severity: 'error',
    message: 'Destination {destination} sets the header {header}, which is not for the site file to set.',
    remedy: 'Remove it; authorization goes under auth, by reference to the secret.',
    basis: 'the site configuration',
  },
  'delivery.other-version': {
    severity: 'error',
    message: '{destination} says that it speaks FHIR {version}; submissions to it are written in {ours}.',
    remedy:
      'Set fhirVersion of the destination to what the server speaks, or use its address for the other release.',
    basis: 'FHIR R4, CapabilityStatement.fhirVersion: https://hl7.org/fhir/R4/capabilitystatement.html',
  },
  'delivery.transaction-not-declared': {
    severity: 'warning',
    message: '{destination} does not say that it takes transactions.',
    remedy:
      'Set the mode of the destination to batch or single; or, when you know that it takes them all the same, undeclaredTransaction to true.',
    basis: 'FHIR R4, CapabilityStatement.rest.interaction: https://hl7.org/fhir/R4/capabilitystatement.html',
  },
  'delivery.batch-not-declared': {
    severity: 'warning',
    message: '{destination} does not say that it takes batches.',
    remedy: 'Set the mode of the destination to single when batches fail there.',
    basis: 'FHIR R4, CapabilityStatement.rest.interaction: https://hl7.org/fhir/R4/capabilitystatement.html',
  },
  'delivery.not-in-version': {
    severity: 'error',
    message: '{destination} asks for FHIR {version}, in which {what} cannot be written. Nothing was sent.',
    remedy: 'Use an address of that server for FHIR R4 (4.0.1).',
    basis: 'the elements written down for each release of FHIR',
  },
  'delivery.relations-left-out': {
    severity: 'information',
    message:
      '{destination} is set to take no relatesTo: the document does not name the one before it. The report says it in words, and the one before is superseded all the same.',
    remedy: 'Set relatesTo of the destination to send where the server takes it.',
    basis: 'FHIR R4 DocumentReference.relatesTo and Composition.relatesTo',
  },
  'delivery.linked-by-identifier': {
    severity: 'information',
    message:
      '{destination} takes no transactions: references {what} name the identifier in place of an address, for they would close a circle.',
    remedy: 'Set the mode of the destination to transaction where the server takes them.',
    basis: 'FHIR R4, Reference.identifier: https://hl7.org/fhir/R4/references.html#logical',
  },
  'delivery.lost-in-version': {
    severity: 'information',
    message: '{destination} asks for FHIR {version}, which has no place for {what}.',
    remedy: 'Use an address of that server for FHIR R4 (4.0.1) when this matters there.',
    basis: 'the elements written down for each release of FHIR',
  },
  'delivery.type-not-declared': {
    severity: 'warning',
    message: '{destination} does not say that it takes {type} {what}.',
    remedy: 'Ask those who run it, or leave that kind of resource out in the site file where it allows.',
    basis: 'FHIR R4, CapabilityStatement.rest.resource: https://hl7.org/fhir/R4/capabilitystatement.html',
  },
  'delivery.forbidden': {
    severity: 'error',
    message: '{destination} knows the sender but does not let it write ({status}).',
    remedy: 'Have write access granted there for the kinds of resource that a case has.',
    basis: RFC9110,
  },
  'delivery.no-transaction': {
    severity: 'error',
    message: '{destination} takes no transactions at this address ({status}).',
    remedy: 'Check the base address; it often ends in /fhir or /r4.',
    basis: R4_TRANSACTION,
  },
  'delivery.media-type': {
    severity: 'error',
    message: '{destination} does not take the media type of the submission ({status}).',
    remedy: 'Set the media type of the destination to application/json or what its documentation names.',
    basis: 'FHIR R4, RESTful API, content types: https://hl7.org/fhir/R4/http.html#mime-type',
  },
  'delivery.server-says': {
    severity: 'error',
    message: '{destination} says of {resource}: {text}',
    remedy:
      'Mend it in the record or the site file; what a server refuses beyond the standard is its own rule.',
    basis: 'the answer of the destination',
  },
  'delivery.held-differs': {
    severity: 'warning',
    message: '{destination} holds {element} otherwise than sent: sent {sent}, held {held}.',
    remedy: 'Find out whether the server changes or drops it, and whether that matters for the case.',
    basis: 'what the destination answers when read',
  },
});
