import { useState } from 'preact/hooks';
import { language, say } from '../../words.js';
import { useDesk } from '../desk/desk.js';
import { mergedWith } from '../desk/merging.js';
import { addressOf } from '../desk/service.js';
import type { ShownFinding } from '../engine/work.js';

interface ReadDose {
  readonly contribution: Readonly<Record<string, unknown>>;
  readonly lines: readonly string[];
  readonly findings: readonly ShownFinding[];
}

/** Dose reports as DICOM files, dropped or chosen: what they say is shown, and taken over by a touch. */
export function DoseFile() {
  const { service, session, tell, open } = useDesk();
  const [read, setRead] = useState<ReadDose>();
  const [said, setSaid] = useState('');
  const send = async (files: readonly File[]) => {
    if (files.length === 0) return;
    const body = new FormData();
    for (const file of files) body.append('dose', file, file.name);
    setRead(undefined);
    setSaid(say('case.dose.reading'));
    try {
      const answer = await service.clock.fetch(addressOf(`v1/dose/check?language=${language}`), {
        ...{
          method: 'POST',
          body,
          headers: { 'x-casetally-page': 'yes' },
          cache: 'no-store',
          redirect: 'error',
        },
      });
      if (answer.ok) setRead((await answer.json()) as ReadDose);
      setSaid(answer.ok ? '' : say('case.dose.unread'));
    } catch {
      setSaid(say('case.not.away'));
    }
  };
  const take = async () => {
    if (!read) return;
    const { text } = session.view();
    // What was found in the files is shown already, and is no part of what is sent.
    const { findings: _, ...source } = read.contribution;
    const made = await mergedWith(service.clock.fetch, text, { source });
    const fits = made?.record !== undefined && made.held.length === 0;
    const not = made?.record === undefined || !fits ? [] : await session.replace(text, made.record);
    if (not) {
      // Of another patient, for instance: nothing of it is taken, and it says why.
      setSaid(say('case.dose.not-taken'));
      setRead({ ...read, findings: made?.findings ?? [] });
      return;
    }
    tell(say('case.dose.taken'));
    setRead(undefined);
  };
  if (!open) return null;
  return (
    <section
      class="dose-file"
      aria-label={say('case.dose.file')}
      onDragOver={event => event.preventDefault()}
      onDrop={event => {
        event.preventDefault();
        void send([...(event.dataTransfer?.files ?? [])]);
      }}
    >
      <label for="dose-file">{say('case.dose.file')}</label>
      <input
        id="dose-file"
        type="file"
        multiple
        onChange={event => void send([...(event.currentTarget.files ?? [])])}
      />
      <p role="status">{said}</p>
      {read && (
        <>
          <ul>
            {read.lines.map(line => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          {read.findings.map(found => (
            <p key={found.code + found.path} class={`finding ${found.severity}`}>
              {found.message} {found.remedy}
            </p>
          ))}
          <button type="button" class="main" onClick={() => void take()}>
            {say('case.line.take')}
          </button>
        </>
      )}
    </section>
  );
}
