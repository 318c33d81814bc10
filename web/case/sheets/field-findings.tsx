import { say } from '../../words.js';
import { useDesk } from '../desk/desk.js';

/** What was found at a field, or below it where the field is shown whole. */
export function FieldFindings({ path, whole = false }: { readonly path: string; readonly whole?: boolean }) {
  const { checked } = useDesk();
  const found = (checked?.findings ?? []).filter(
    one =>
      !one.acknowledged &&
      (one.path === path || (whole && (one.path.startsWith(`${path}.`) || one.path.startsWith(`${path}[`)))),
  );
  return (
    <>
      {found.map(one => (
        <p key={one.code} class={`finding ${one.severity}`}>
          <strong>{say(`case.severity.${one.severity}`)}</strong> {one.message} {one.remedy}
        </p>
      ))}
    </>
  );
}
