import type { Finding } from '../../answers.js';
import { say } from '../../words.js';

/** What the service found, in its order: the worst for the patient first. */
export function FindingLines({ findings }: { readonly findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <ul class="findings">
      {findings.map(({ code, path, severity, message, remedy, acknowledged }) => (
        <li key={`${code} ${path} ${message}`} class={`finding ${severity}`}>
          <p>
            <strong>{say(`case.severity.${severity}`)}</strong> {message}
          </p>
          <p>{acknowledged ? say('case.accepted-since', { reason: acknowledged.reason }) : remedy}</p>
        </li>
      ))}
    </ul>
  );
}
