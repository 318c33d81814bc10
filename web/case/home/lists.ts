import { useEffect, useState } from 'preact/hooks';
import { type Answer, ask } from '../ask/ask.js';
import { Guard } from '../desk/guard.js';

/** A draft as lists have it. */
export interface CaseRow {
  readonly id: string;
  readonly state: string;
  readonly day: string;
  /** ISO time, UTC. */
  readonly changed: string;
  readonly by: string;
  readonly case?: string;
  readonly patient?: string;
  readonly patientNumber?: string;
  readonly next: string;
  readonly items?: readonly { readonly destination: string; readonly state: string }[];
  /** ISO time, UTC: when a signed case leaves. */
  readonly leavesAt?: string;
  /** Why it came back, or why it was discarded. */
  readonly why?: string;
}

/** What a case needs next, what cannot wait first. */
export const needs = ['somebody', 'entering', 'signature', 'leaving', 'delivery', 'nothing'] as const;
export const needOf = ({ next }: CaseRow): (typeof needs)[number] =>
  needs.find(need => next === need || next.startsWith(`${need},`)) ?? 'somebody';

export interface Lists {
  /** Today at the site. */
  readonly today: string;
  /** Of today and yesterday. */
  readonly rows: readonly CaseRow[];
  /** There are more than one answer holds. */
  readonly more: boolean;
}

interface Listed {
  readonly on: string;
  readonly drafts: readonly CaseRow[];
  readonly more: boolean;
}

/** How often lists are asked for while they are looked at, in milliseconds. */
const EVERY = 20_000;

/** Cases of today and yesterday, kept current while the page is in sight; and why they could not be asked for. */
export function useLists(wanted: boolean): {
  readonly lists: Lists | undefined;
  readonly trouble: Extract<Answer<never>, { ok: false }> | undefined;
} {
  const [lists, setLists] = useState<Lists>();
  const [trouble, setTrouble] = useState<Extract<Answer<never>, { ok: false }>>();
  useEffect(() => {
    if (!wanted) return undefined;
    let over = false;
    let busy = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const guard = new Guard();
    const unwatch = guard.watch();
    let before = '';
    const look = async () => {
      if (busy || document.hidden) return;
      busy = true;
      clearTimeout(timer);
      const answer = await bothDays();
      busy = false;
      if (over) return;
      timer = setTimeout(look, EVERY);
      setTrouble(answer.ok ? undefined : answer);
      if (!answer.ok) return;
      guard.show(() => {
        const places = JSON.stringify(answer.body.rows.map(row => [row.id, row.next]));
        const moved = before !== '' && before !== places;
        before = places;
        setLists(answer.body);
        return moved;
      });
    };
    void look();
    document.addEventListener('visibilitychange', look);
    addEventListener('online', look);
    return () => {
      over = true;
      clearTimeout(timer);
      unwatch();
      document.removeEventListener('visibilitychange', look);
      removeEventListener('online', look);
    };
  }, [wanted]);
  return { lists, trouble };
}

/** The service says which day it is at the site; the tablet may be elsewhere, or wrong. */
async function bothDays(): Promise<Answer<Lists>> {
  const today = await ask<Listed>('v1/drafts');
  if (!today.ok) return today;
  const { on } = today.body;
  const yesterday = await ask<Listed>(`v1/drafts?on=${dayBefore(on)}`);
  if (!yesterday.ok) return yesterday;
  return {
    ok: true,
    body: {
      today: on,
      rows: [...today.body.drafts, ...yesterday.body.drafts],
      more: today.body.more || yesterday.body.more,
    },
  };
}

/** @param day `YYYY-MM-DD` */
export const dayBefore = (day: string): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) - 86_400_000).toISOString().slice(0, 10);
