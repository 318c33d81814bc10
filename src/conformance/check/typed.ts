import { createHash } from 'node:crypto';
import type { JsonObject } from '../../json/parse.js';
import type { Plan } from '../schema/plan.js';
import { checkCoding, checkUnit } from './bindings.js';
import { isAbsolute } from './bundle-index.js';
import { type Place, patternOf, type Scope } from './place.js';
import { checkReference } from './references.js';
import type { Run } from './run.js';

/** Checks that belong to one data type and that its structure does not express. */
export function checkTyped(run: Run, value: JsonObject, plan: Plan, place: Place, scope: Scope): void {
  switch (plan.type) {
    case 'Coding':
      checkCoding(run, value, place);
      return;
    case 'Reference':
      checkReference(run, value, plan, place, scope);
      return;
    case 'Identifier':
      checkIdentifier(run, value, place);
      return;
    case 'Attachment':
      checkAttachment(run, value, place);
      return;
    case 'BackboneElement':
      if (patternOf(place) === 'Device.udiCarrier') checkUdiIssuer(run, value, place);
      return;
    default:
      if (plan.ancestry.includes('Quantity')) checkUnit(run, value, place);
  }
}

/** Source: R4 datatypes page, Identifier. */
function checkIdentifier(run: Run, identifier: JsonObject, place: Place): void {
  const { system, value } = identifier;
  if (typeof system !== 'string') return;
  run.rules.add('identifier-system');
  if (!isAbsolute(system)) {
    run.report(
      'conformance.identifier-system',
      place,
      { system },
      { member: { owner: identifier, key: 'system' } },
    );
  } else if (system === 'urn:ietf:rfc:3986' && typeof value === 'string' && !isAbsolute(value)) {
    run.report(
      'conformance.identifier-value',
      place,
      { value },
      { member: { owner: identifier, key: 'value' } },
    );
  }
}

/** Source: R4 Device, udiCarrier.issuer, and the table of issuers on its page. */
function checkUdiIssuer(run: Run, carrier: JsonObject, place: Place): void {
  const { issuer } = carrier;
  if (typeof issuer !== 'string') return;
  run.rules.add('udi-issuer-relative');
  if (!isAbsolute(issuer))
    run.report(
      'conformance.udi-issuer-relative',
      place,
      { issuer },
      { member: { owner: carrier, key: 'issuer' } },
    );
}

/** Source: R4 datatypes page, Attachment: size and SHA-1 hash are those of the data before base64. */
function checkAttachment(run: Run, attachment: JsonObject, place: Place): void {
  const { data, hash, size } = attachment;
  if (typeof data !== 'string' || (hash === undefined && size === undefined)) return;
  run.rules.add('attachment-hash');
  const bytes = Buffer.from(data, 'base64');
  const expected = createHash('sha1').update(bytes).digest('base64');
  if (typeof hash === 'string' && hash !== expected) {
    run.report(
      'conformance.attachment-hash',
      place,
      { expected },
      { member: { owner: attachment, key: 'hash' } },
    );
  }
  if (typeof size === 'number' && size !== bytes.length) {
    const params = { found: String(size), expected: String(bytes.length) };
    run.report('conformance.attachment-size', place, params, { member: { owner: attachment, key: 'size' } });
  }
}
