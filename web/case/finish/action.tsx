import { useState } from 'preact/hooks';
import type { Finding } from '../../answers.js';
import { ask } from '../ask/ask.js';
import { useDesk } from '../desk/desk.js';
import type { Who } from '../person/who.js';
import { FindingLines } from './finding-lines.js';

interface Props {
  readonly id: string;
  readonly what: 'close' | 'reopen' | 'take-back';
  readonly who: Who;
  /** Words of the button. */
  readonly say: string;
  /** Why it cannot be done now. */
  readonly not?: string | undefined;
  readonly plain?: boolean;
}

/** A button that moves the draft on, for the version that is seen; what the service has against it stands beside. */
export function Action({ id, what, who, say, not, plain = false }: Props) {
  const { session, view } = useDesk();
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const [findings, setFindings] = useState<readonly Finding[]>([]);
  const move = async () => {
    if (busy || not !== undefined) return;
    setBusy(true);
    const { by } = who;
    const answer = await ask(`v1/drafts/${encodeURIComponent(id)}/${what}`, {
      version: view.version,
      json: by === undefined ? {} : { by },
    });
    setBusy(false);
    setSaid(answer.ok ? '' : answer.text);
    setFindings(answer.ok ? [] : answer.findings);
    session.look();
  };
  return (
    <div class="action">
      <p role="status">{not ?? said}</p>
      <FindingLines findings={findings} />
      <button
        type="button"
        class={plain ? '' : 'main'}
        data-action={what}
        disabled={busy || not !== undefined}
        onClick={() => void move()}
      >
        {say}
      </button>
    </div>
  );
}
