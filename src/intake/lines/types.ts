import type { DeviceFamily } from '../../devices/types.js';
import type { Message } from '../../findings/message.js';
import type { CaseEvent } from '../../record/schema/record.js';
import type { TimeContext } from '../../record/time.js';

/** Part of a line, by places of its characters from 0. */
export interface Span {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** An event as it would be typed in a case file: amounts with their units, `count` as a number. */
export interface ProposedEvent {
  readonly at?: string;
  readonly do: CaseEvent['do'];
  readonly device?: string;
  readonly part?: string;
  readonly replaces?: string;
  readonly with?: readonly string[];
  readonly over?: string;
  readonly through?: string;
  readonly into?: string;
  /** Key of a target of the record; the words of the line where no target has them. */
  readonly across?: string;
  readonly guidance?: string;
  readonly to?: string;
  readonly fixedBy?: string;
  readonly pressure?: string;
  readonly depth?: string;
  readonly duration?: string;
  readonly volume?: string;
  readonly agent?: string;
  readonly result?: string;
  readonly state?: CaseEvent['state'];
  readonly crossed?: 'no';
  readonly count?: number;
  readonly note?: string;
}

/** A drug as it would be typed; without its route where nobody said it. */
export interface ProposedDrug {
  readonly at?: string;
  readonly drug: string;
  readonly dose?: string;
  readonly strength?: string;
  readonly route?: string;
  readonly for?: string;
}

/** A device that the record does not have. */
export interface ProposedDevice {
  readonly kind: string;
  readonly size?: string;
  readonly diameter?: string;
  readonly length?: string;
  readonly description?: string;
}

/** Which device some words mean, and how that was found. */
export interface Meant {
  readonly as: 'device' | 'over' | 'through' | 'replaces' | 'with';
  readonly device: string;
  /** `state`: the only one of those named that is where it must be; `spoken of last`: nothing but that it was; `new`: proposed. */
  readonly by: 'key' | 'words' | 'size' | 'state' | 'the only one' | 'spoken of last' | 'new';
  /** The words; absent where the line names no device. */
  readonly said?: string;
  /** Others that the words fit as well. */
  readonly others?: readonly string[];
}

/** `uncertain`: proposed, to be looked at; `not understood`: nothing is proposed. */
export type Certainty = 'understood' | 'uncertain' | 'not understood';

/** What one line was read as. */
export interface LineReading {
  /** The line, cut where it was too long. */
  readonly line: string;
  readonly certainty: Certainty;
  /** What makes it uncertain; empty when it was understood. */
  readonly why: readonly Message[];
  readonly events: readonly ProposedEvent[];
  readonly drugs: readonly ProposedDrug[];
  /** Devices that the line brings in, by the key that its events use. */
  readonly devices: Readonly<Record<string, ProposedDevice>>;
  readonly meant: readonly Meant[];
  /** Words that say something that was not understood. */
  readonly unknown: readonly Span[];
}

/** A device as lines can refer to it, as typed. */
export interface ListedDevice {
  readonly key: string;
  readonly kind: string;
  readonly family?: DeviceFamily;
  readonly size?: string;
  readonly diameter?: string;
  readonly length?: string;
  readonly description?: string;
  /** How many alike; 1 when absent. */
  readonly count?: number;
  /** How many are in the patient before the first line. */
  readonly inside?: number;
  /** It was in the patient before. */
  readonly used?: boolean;
  /** Kinds of its parts by key. */
  readonly parts?: Readonly<Record<string, string>>;
}

/** What lines are read against. */
export interface LineContext {
  readonly devices?: readonly ListedDevice[];
  /** What each target is called, by its key. */
  readonly targets?: Readonly<Record<string, readonly string[]>>;
  /** Time of receipt, `HH:MM`, for lines without a time of their own; such lines are uncertain without it. */
  readonly at?: string;
  /** Date, zone and start of the case: a time that its clocks did not show is said. */
  readonly time?: TimeContext;
}
