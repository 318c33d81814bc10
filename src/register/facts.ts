import type { PatientNumber } from '../registry/patient-number.js';

/**
 * What the register keeps of one version of a case: plain data, so that it can be stored and folded again without the
 * record. Dates are `YYYY`, `YYYY-MM` or `YYYY-MM-DD`, as precise as they are known.
 */
export interface CaseFacts {
  readonly case: CaseName;
  /** 1 for a first report. */
  readonly version: number;
  readonly status: 'preliminary' | 'final' | 'amended' | 'appended' | 'withdrawn';
  /** Digest of what the record says. */
  readonly digest: string;
  /** Day of the case. */
  readonly date: string;
  /** Milliseconds since 1970 of its first event, for the order within a day. */
  readonly at?: number;
  /** When the version was made, and why it follows another. */
  readonly changed?: { readonly date?: string; readonly why?: string };
  /** The number that the person goes by; absent where the record gives none that counts. */
  readonly person?: PersonNumber;
  /** All numbers of the person in the record. */
  readonly numbers: readonly PersonNumber[];
  /** Day of death, where the record says that the patient died; '' when the day is not said. */
  readonly died?: string;
  readonly devices: readonly DeviceFact[];
  /** What measures are made of; absent in what was taken in by an earlier release, until the register is rebuilt. */
  readonly figures?: CaseFigures;
}

/** What a case tells beside its devices. */
export interface CaseFigures {
  /** Rows of the table of kinds; none where the words of the record name none. */
  readonly kinds: readonly string[];
  readonly status: 'completed' | 'stopped early' | 'not done';
  /** `SCALE GRADE` of each complication, 'ungraded' for one whose grade is not of its scale. */
  readonly complications: 'not recorded' | 'none' | readonly string[];
  /** Kerma-area product in Gy·cm², as exact as it was recorded; 'none' without radiation. */
  readonly kermaArea: 'none' | 'not recorded' | string;
}

/** A case by its number in a numbering system. */
export interface CaseName {
  readonly system: string;
  readonly value: string;
}

export type PersonNumber = PatientNumber;

/** One device of the case, or a part of one that went its own way. */
export interface DeviceFact {
  /** Key in the record, and of the part. */
  readonly device: string;
  readonly part?: string;
  /** In English, for lists. */
  readonly name: string;
  /** Row of the table of kinds, else the family. */
  readonly kind: string;
  readonly family: string;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly maker?: string;
  readonly model?: string;
  readonly reference?: string;
  readonly site?: string;
  readonly side?: 'left' | 'right' | 'both' | 'midline';
  /** Meant to be taken out again, as a caval filter that is not a permanent one. */
  readonly retrievable: boolean;
  /** How many alike the record knows of. */
  readonly count: number;
  /** How many are inside at the end. */
  readonly inside: number;
  /** Day on which the first went in, for what this case placed. */
  readonly inOn?: string;
  /** How many came out in this case, and on which day the last one did. */
  readonly out: number;
  readonly outOn?: string;
  /** How many nobody can account for, or find. */
  readonly open: number;
  /** Why it is inside, where it is. */
  readonly purpose?: 'intended' | 'temporary' | 'unintended';
  /** Present for what an earlier case left. */
  readonly carried?: {
    readonly case?: CaseName;
    readonly use?: string;
    readonly date?: string;
  };
  /** It was moved or set anew while it stayed. */
  readonly moved?: true;
  /** Key of the device that took its place. */
  readonly replacedBy?: string;
  /** A part whose device it broke or came off from. */
  readonly ofUse?: true;
  readonly plans: readonly PlanFact[];
}

/** Something to be done about a device. */
export interface PlanFact {
  readonly key: string;
  readonly what: string;
  readonly by: string;
  readonly earliest?: string;
  readonly due?: string;
  readonly latest?: string;
  readonly condition?: string;
}

/** How a case is named where people read or type it: its number, and its system where that is another than the site's own. */
export const caseText = ({ system, value }: CaseName, own: string): string =>
  system === own ? value : `${system}|${value}`;

/** What a device is, without what became of it in one case: the fields that its use has too, and the columns of it. */
export const described = [
  'device',
  'part',
  'name',
  'kind',
  'family',
  'di',
  'lot',
  'serial',
  'expires',
  'maker',
  'model',
  'reference',
  'site',
  'side',
  'retrievable',
  'purpose',
] as const satisfies readonly (keyof DeviceFact)[];

export type DescribedDevice = Pick<DeviceFact, (typeof described)[number]>;

/** Those fields of a fact. */
export function describedDevice(fact: DeviceFact): DescribedDevice {
  const own: ReadonlySet<string> = new Set(described);
  return Object.fromEntries(Object.entries(fact).filter(([name]) => own.has(name))) as DescribedDevice;
}
