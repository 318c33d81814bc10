import { useEffect, useState } from 'preact/hooks';
import type { Destinations, Finding } from '../../answers.js';
import { say } from '../../words.js';
import { ask, keepAsking } from '../ask/ask.js';
import { useDesk } from '../desk/desk.js';
import { FindingLines } from '../finish/finding-lines.js';
import { signInAddress } from '../person/person-bar.js';
import type { Who } from '../person/who.js';
import { personIn } from './person-in.js';
import { type Summary, SummaryView } from './summary.js';
import { TeamChoices, teamIn } from './team-choices.js';

/** Signing: what whoever signs stands by, where it goes, and who it is. */
export function SignView({ id, who }: { readonly id: string; readonly who: Who }) {
  const { seen, session, view } = useDesk();
  const team = teamIn(seen.tree);
  const [author, setAuthor] = useState(() => personIn(team, who.name));
  const [to, setTo] = useState<string>();
  const [name, setName] = useState('');
  const [summary, setSummary] = useState<Summary>();
  const [destinations, setDestinations] = useState<readonly string[]>([]);
  const [said, setSaid] = useState('');
  const [findings, setFindings] = useState<readonly Finding[]>([]);
  const [fresh, setFresh] = useState(false);
  const [busy, setBusy] = useState(false);
  const { version } = view;
  const path = `v1/drafts/${encodeURIComponent(id)}`;

  useEffect(() => {
    setSummary(undefined);
    const json = author === undefined ? {} : { author };
    return keepAsking<Summary>(`${path}/to-sign`, { json }, answer => {
      setSummary(answer.ok ? answer.body : undefined);
      setSaid(answer.ok ? '' : answer.text);
      setFindings(answer.ok ? [] : answer.findings);
    });
  }, [path, version, author]);
  const nowhere = summary !== undefined && summary.goesTo.length === 0;
  useEffect(() => {
    if (!nowhere) return undefined;
    return keepAsking<Destinations>('v1/destinations', {}, answer => {
      if (answer.ok) setDestinations(answer.body.destinations.map(one => one.name));
    });
  }, [nowhere]);

  // Who signed in at a provider shows it there; a typed name is typed again.
  const types = !who.verified;
  const why = !who.may('sign')
    ? say('case.sign.no-right')
    : author === undefined
      ? say('case.sign.choose-author')
      : !summary
        ? said || say('case.checking')
        : !summary.ready
          ? say('case.ask.findings')
          : nowhere && to === undefined
            ? say('screen.take.choose')
            : types && name.trim() === ''
              ? say('case.sign.type-name')
              : undefined;
  const sign = async () => {
    if (busy || why !== undefined) return;
    setBusy(true);
    const answer = await ask(`${path}/sign`, {
      version,
      json: { author, ...(nowhere && { to }), ...(types && { by: name.trim() }) },
    });
    setBusy(false);
    setFresh(!answer.ok && answer.code === 'login' && !types);
    setSaid(answer.ok ? '' : answer.code === 'login' && types ? say('case.sign.other-name') : answer.text);
    if (!answer.ok && answer.findings.length > 0) setFindings(answer.findings);
    session.look();
  };
  return (
    <section class="sign" aria-labelledby="sign">
      <h3 id="sign">{say('case.sign.title')}</h3>
      <TeamChoices team={team} chosen={author} choose={setAuthor} />
      {summary && <SummaryView summary={summary} />}
      {nowhere && (
        <fieldset>
          <legend>{say('screen.take.where')}</legend>
          <div class="choices">
            {destinations.map(one => (
              <button
                key={one}
                type="button"
                data-to={one}
                aria-pressed={one === to}
                onClick={() => setTo(one)}
              >
                {one}
              </button>
            ))}
          </div>
        </fieldset>
      )}
      <FindingLines findings={findings} />
      {types && who.may('sign') && (
        <div class="field">
          <label for="sign-name">{say('case.sign.name')}</label>
          <input
            id="sign-name"
            value={name}
            autocomplete="off"
            spellcheck={false}
            maxLength={100}
            onInput={event => setName(event.currentTarget.value)}
          />
          <p class="hint">{say('case.sign.name-hint')}</p>
        </div>
      )}
      <p role="status">{why ?? said}</p>
      {fresh && (
        <a class="button" href={signInAddress(true, `case${location.search}#${id}/finish`)}>
          {say('case.sign.fresh')}
        </a>
      )}
      <button
        type="button"
        class="main"
        data-action="sign"
        disabled={busy || why !== undefined}
        onClick={() => void sign()}
      >
        {say('case.sign.sign')}
      </button>
      <p class="hint">{say('case.sign.caution')}</p>
    </section>
  );
}
