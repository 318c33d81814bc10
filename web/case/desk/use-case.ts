import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { say } from '../../words.js';
import type { CheckedText, Fields } from '../engine/work.js';
import { Session } from '../session/session.js';
import type { SessionView } from '../session/types.js';
import type { Desk, Seen, Where } from './desk.js';
import { Guard } from './guard.js';
import { Lookout, listenTo, type NotOpened, openCase } from './open-case.js';
import { type NoService, openService, type Service } from './service.js';

/** How long nothing has to change before the case is checked: the thread that checks makes the edits as well. */
const CHECK_AFTER = 900;

export type Opened =
  | { readonly kind: 'opening' }
  | { readonly kind: 'not'; readonly why: NotOpened | NoService; readonly again: () => void }
  | { readonly kind: 'open'; readonly desk: Desk; readonly people: readonly string[]; readonly told: string };

/** One case, opened and kept in step with the service. */
export function useCase(id: string): Opened {
  const [tries, setTries] = useState(0);
  const [service, setService] = useState<Service>();
  const [session, setSession] = useState<Session>();
  const [not, setNot] = useState<NotOpened | NoService>();
  const [view, setView] = useState<SessionView>();
  const [seen, setSeen] = useState<Seen>();
  const [checked, setChecked] = useState<CheckedText>();
  const [fields, setFields] = useState<Fields>();
  const [people, setPeople] = useState<readonly string[]>([]);
  const [where, setWhere] = useState<Where>({ view: 'devices' });
  const [told, setTold] = useState('');
  const shown = useRef<Seen>();
  const guard = useMemo(() => new Guard(), []);
  useEffect(() => guard.watch(), [guard]);

  useEffect(() => {
    let over = false;
    const ends: (() => void)[] = [() => (over = true)];
    setNot(undefined);
    void (async () => {
      const found = await openService();
      if (over) return;
      if ('kind' in found) return setNot(found);
      const { engine, clock } = found;
      let timer: ReturnType<typeof setTimeout> | undefined;
      const lookout = new Lookout(
        text => engine.look(text, clock.now()),
        (looked, text) => {
          guard.show(() => {
            const before = shown.current;
            const now = { ...looked, text };
            shown.current = now;
            setSeen(now);
            return before !== undefined && placesOf(before) !== placesOf(now);
          });
          clearTimeout(timer);
          timer = setTimeout(() => void engine.check(text, clock.now()).then(setChecked), CHECK_AFTER);
        },
      );
      let last: string | undefined;
      const opened = await openCase(id, found, now => {
        setView(now);
        if (now.text !== last) lookout.look(now.text);
        last = now.text;
      });
      if (!(opened instanceof Session)) return over || setNot(opened);
      ends.push(
        () => opened.end(),
        () => clearTimeout(timer),
      );
      if (over) return opened.end();
      ends.push(listenTo(id, opened, setPeople));
      setService(found);
      setSession(opened);
      void engine.fields().then(setFields);
    })();
    return () => {
      for (const end of ends) end();
    };
  }, [id, tries, guard]);

  useEffect(() => {
    if (told === '') return undefined;
    const timer = setTimeout(() => setTold(''), 8_000);
    return () => clearTimeout(timer);
  }, [told]);

  if (not) return { kind: 'not', why: not, again: () => setTries(tries + 1) };
  if (!service || !session || !view || !seen) return { kind: 'opening' };
  const act: Desk['act'] = async edits => {
    const why = await session.edit(edits, seen.text);
    if (why) setTold(say('case.not-made'));
    return why === undefined;
  };
  const desk: Desk = {
    ...{ service, session, view, seen, checked, fields, where, act },
    ...{ go: setWhere, tell: setTold, open: view.state === 'open' },
  };
  return { kind: 'open', desk, people, told };
}

/** Where rows of the page stand, as far as what is seen decides it. */
const placesOf = ({ placed, said }: Seen): string =>
  JSON.stringify([placed.map(({ device, part, tray }) => [device, part, tray]), said.length]);
