import { byHarm } from '../../findings/harm.js';
import { fromResponse } from '../../intake/form/from-response.js';
import { canonicalOf } from '../../pipeline/settings.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import type { CasePorts } from './case-handlers.js';

const JSON_TYPE = /^application\/(?:fhir\+)?json\b/i;

/**
 * POST /cases/from-response: the case record of a response to the form, every finding, what was left out, and the
 * values one by one. The record is there while errors stand as well, to be corrected; nothing is taken in.
 */
export function fromResponseHandler(body: Uint8Array, type: string, ports: CasePorts): Reply {
  const { site, tools, language } = ports;
  if (!JSON_TYPE.test(type))
    return refusal(
      415,
      'not-supported',
      'A QuestionnaireResponse is sent as application/fhir+json or application/json.',
    );
  const { record, findings, leftOut, contribution } = fromResponse(body, {
    ...canonicalOf(site.site),
    version: tools.softwareVersion,
    ...(site.site.timeZone !== undefined && { timeZone: site.site.timeZone }),
  });
  if (record !== undefined) {
    const { findings: _findings, ...values } = contribution ?? { findings };
    return reply(
      200,
      { record, findings: byHarm(findings), leftOut, ...(contribution && { contribution: values }) },
      { language },
    );
  }
  const unreadable = findings.some(({ severity }) => severity === 'fatal');
  return unreadable
    ? refusal(
        400,
        'structure',
        'This is not a QuestionnaireResponse that can be read.',
        findings,
        {},
        language,
      )
    : refusal(
        422,
        'invalid',
        'No record is made of this response: see the findings.',
        findings,
        {},
        language,
      );
}
