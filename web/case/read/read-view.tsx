import { useState } from 'preact/hooks';
import type { Prepared, Reader } from '../../answers.js';
import { language as own, say } from '../../words.js';
import { ask } from '../ask/ask.js';
import { useDesk } from '../desk/desk.js';
import { ChangesView } from './changes-view.js';
import { ReportFrame } from './report-frame.js';

const READERS = ['record', 'referrer', 'ward', 'patient'] as const satisfies readonly Reader[];

/** Languages of reports, each by its own name. */
const languages = Object.entries(
  JSON.parse(document.querySelector('meta[name="languages"]')?.getAttribute('content') ?? '{}') as Readonly<
    Record<string, string>
  >,
);

interface Read {
  readonly text: string;
  readonly language: string;
  readonly prepared: Prepared;
}

/** The reports as they will be read, for each reader and in each language; and what is new in this version. */
export function ReadView() {
  const { seen } = useDesk();
  const [read, setRead] = useState<Read>();
  const [reader, setReader] = useState<Reader>('record');
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const prepare = async (language: string) => {
    if (busy) return;
    setBusy(true);
    setSaid(say('case.read.preparing'));
    const { text } = seen;
    const answer = await ask<Prepared>(`cases/prepare?draft=yes&language=${language}`, { record: text });
    setBusy(false);
    setSaid(answer.ok ? '' : answer.text);
    if (answer.ok) setRead({ text, language, prepared: answer.body });
  };
  const report = read?.prepared.reports[reader];
  return (
    <section class="read" aria-labelledby="read">
      <h3 id="read">{say('case.read.title')}</h3>
      <p role="status">{said}</p>
      {!read && (
        <button type="button" disabled={busy} onClick={() => void prepare(own)}>
          {say('case.read.show')}
        </button>
      )}
      {read && (
        <>
          {read.text !== seen.text && (
            <div class="stale" role="alert">
              <p>{say('case.read.stale')}</p>
              <button type="button" disabled={busy} onClick={() => void prepare(read.language)}>
                {say('case.read.again')}
              </button>
            </div>
          )}
          {!read.prepared.sendable && <p class="stale">{say('case.read.doubt')}</p>}
          <fieldset>
            <legend>{say('case.read.reader')}</legend>
            <div class="choices">
              {READERS.map(one => (
                <button
                  key={one}
                  type="button"
                  data-reader={one}
                  aria-pressed={one === reader}
                  onClick={() => setReader(one)}
                >
                  {say(`case.reader.${one}`)}
                </button>
              ))}
            </div>
          </fieldset>
          <fieldset>
            <legend>{say('case.read.language')}</legend>
            <div class="choices">
              {languages.map(([tag, name]) => (
                <button
                  key={tag}
                  type="button"
                  lang={tag}
                  data-language={tag}
                  aria-pressed={tag === read.language}
                  disabled={busy}
                  onClick={() => void prepare(tag)}
                >
                  {name}
                </button>
              ))}
            </div>
          </fieldset>
          {report ? (
            <ReportFrame
              html={report.html}
              title={say('screen.report-for', { reader: say(`case.reader.${reader}`) })}
            />
          ) : (
            <p>{say('screen.no-report')}</p>
          )}
        </>
      )}
      <ChangesView />
    </section>
  );
}
