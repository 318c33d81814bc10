import { useDesk } from '../desk/desk.js';
import { at } from '../desk/tree.js';
import { TeamChoices, teamIn } from '../sign/team-choices.js';

/** Asks who is going to sign, while the record does not say it: a case cannot be closed before. */
export function AuthorView() {
  const { seen, act } = useDesk();
  if (at(seen.tree, 'report') !== undefined) return null;
  return (
    <TeamChoices
      team={teamIn(seen.tree)}
      choose={key => void act([{ path: 'report', value: { status: 'preliminary', author: key } }])}
    />
  );
}
