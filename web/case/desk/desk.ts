import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { CheckedText, Edit, Fields, Looked } from '../engine/work.js';
import type { Session } from '../session/session.js';
import type { Edits, SessionView } from '../session/types.js';
import type { Stage } from '../sheets/stages.js';
import { dayAndTime, momentAt } from './clock.js';
import type { Service } from './service.js';
import { at, type Tree, textAt } from './tree.js';

/** What a text says, and that text. */
export interface Seen extends Looked {
  readonly text: string;
}

/** Which part of the page is shown, and a place in the record that is to be shown in it. */
export interface Where {
  readonly view: 'devices' | 'record' | 'check' | 'text' | 'finish';
  readonly path?: string;
  /** Parts of the record that are shown together. */
  readonly stage?: Stage;
}

/** One open case, for all parts of the page. */
export interface Desk {
  readonly service: Service;
  readonly session: Session;
  readonly view: SessionView;
  /** What stands on the page; edits are made for its text. */
  readonly seen: Seen;
  readonly checked: CheckedText | undefined;
  readonly fields: Fields | undefined;
  readonly where: Where;
  readonly go: (where: Where) => void;
  /** Makes edits for what is seen. False where they were not made, which is then said. */
  readonly act: (edits: Edits) => Promise<boolean>;
  /** Says something for a while, to screen readers as well. */
  readonly tell: (text: string) => void;
  /** False once the case is signed, taken in or discarded. */
  readonly open: boolean;
}

export const DeskContext = createContext<Desk | undefined>(undefined);

export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('there is no case here');
  return desk;
}

/** Zone of the case. */
export const zoneOf = (tree: Tree | undefined, { timeZone }: Service): string | undefined =>
  textAt(tree, 'case.timeZone') ?? timeZone;

/** The edit that says which day it is, where nobody wrote it: times alone are read by the day of the case. */
export function dayEdits({ seen, service }: Pick<Desk, 'seen' | 'service'>): readonly Edit[] {
  const undated = textAt(seen.tree, 'case.date') === undefined && at(seen.tree, 'events') === undefined;
  const { day } = dayAndTime(service.clock.now(), zoneOf(seen.tree, service));
  return undated ? [{ path: 'case.date', value: day }] : [];
}

/** The time of now as an event of this case has it. */
export function nowIn({ seen, service }: Pick<Desk, 'seen' | 'service'>): string {
  const { tree } = seen;
  return momentAt(service.clock.now(), zoneOf(tree, service), textAt(tree, 'case.date'));
}
