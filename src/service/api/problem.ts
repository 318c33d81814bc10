import { STATUS_CODES } from 'node:http';
import { bodyText, type Reply } from './reply.js';

/** A refusal as problem details (RFC 9457), for routes that answer so. `code` is that of FHIR's issue types. */
export function asProblem(reply: Reply): Reply {
  const { status, headers = {} } = reply;
  if (status < 400) return reply;
  const said = JSON.parse(bodyText(reply)) as {
    readonly issue?: readonly { readonly code: string; readonly details: { readonly text: string } }[];
    readonly resourceType?: string;
  };
  const { issue, resourceType: _, ...more } = said;
  const [first] = issue ?? [];
  const problem = {
    type: 'about:blank',
    title: STATUS_CODES[status] ?? 'Error',
    status,
    ...(first && { code: first.code, detail: first.details.text }),
    ...more,
  };
  return {
    ...reply,
    body: JSON.stringify(problem),
    headers: { ...headers, 'content-type': 'application/problem+json; charset=utf-8' },
  };
}
