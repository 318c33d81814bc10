import type { Language } from '../../findings/languages.js';

/** How a statement came about: four different things that must never read alike. */
export type Mark = 'said' | 'none' | 'not recorded' | 'not done';

/** Sections of a view; `record.ts` says in which order and form the full report has them. */
export const sectionKeys = [
  'case',
  'indication',
  'before',
  'consent',
  'team',
  'drugs',
  'technique',
  'devices',
  'findings',
  'images',
  'complications',
  'outcome',
  'inside',
  'specimens',
  'dose',
  'aftercare',
  'advice',
  'worked',
  'warnings',
  'signature',
  'codes',
] as const;
export type SectionKey = (typeof sectionKeys)[number];

/** One labelled fact. `lines` are printed one under the other. */
export interface Fact {
  readonly key: string;
  readonly label: string;
  readonly lines: readonly string[];
  readonly mark: Mark;
  /** False for anything but `said`: templates print it in another hand. */
  readonly said: boolean;
}

/** One cell of a table. */
export interface Cell {
  /** Title of its column, for layouts that set rows out as lists. */
  readonly label: string;
  readonly lines: readonly string[];
}

export interface Row {
  /** Path or key of the record that it comes from. */
  readonly key: string;
  readonly head: Cell;
  readonly cells: readonly Cell[];
  /** Something a reader must not miss: a retained part, a missing piece. */
  readonly alert: boolean;
}

/** Labelled facts under one caption. */
export interface FactsBlock {
  readonly kind: 'facts';
  /** Empty where the title of the section says it already. */
  readonly caption: string;
  readonly facts: readonly Fact[];
  /** How many stand beside each other where there is room: two for short ones. */
  readonly across: 1 | 2;
}

/** A table; every row has as many cells as there are columns. */
export interface TableBlock {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
  /** True when its rows are too wide for 80 columns of plain text. */
  readonly wide: boolean;
  /** True when the caption only repeats the title of the section: for those who cannot see the page. */
  readonly quiet: boolean;
  /** True for two columns, a thing and what is known of it, that read without their titles. */
  readonly items: boolean;
}

export type Block = FactsBlock | TableBlock;

export interface Section {
  readonly key: SectionKey;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** Who the report is about. */
export interface Identity {
  readonly name: string;
  readonly birthDate: string;
  readonly sex: string;
  readonly identifiers: string;
  /** `Vela Quintanar, born 2 August 1957`, for page heads. */
  readonly line: string;
}

/** State of the report as a document. */
export interface Status {
  readonly key: 'preliminary' | 'final' | 'amended' | 'appended' | 'withdrawn';
  readonly label: string;
  /** `Amended, version 2`. */
  readonly line: string;
  /** What a reader must see first; empty for a plain final report. */
  readonly notices: readonly string[];
  /** `Signed by Dr A, 14 March 2024, 10:02`. */
  readonly signature: string;
  /** True when nobody may rely on it: preliminary or withdrawn. */
  readonly caution: boolean;
}

/** One thing that is inside the patient, or may be. */
export interface InsideItem {
  readonly key: string;
  readonly name: string;
  readonly state: string;
  readonly alert: boolean;
  /** Where it lies, how it is set and fixed, until when. */
  readonly lines: readonly string[];
}

/** A death in the words for each reader; empty where the patient lives. */
export interface Ending {
  readonly referrer: readonly string[];
  readonly ward: readonly string[];
}

/** One image of the record that a file is named for. */
export interface PictureItem {
  /** Its path in the record, by which its picture is found: `images[0]`. */
  readonly key: string;
  readonly caption: string;
  /** What stands for it where it cannot be seen. */
  readonly alt: string;
}

/** One thing to do. */
export interface TaskItem {
  readonly key: string;
  readonly what: string;
  readonly urgent: boolean;
  readonly who: string;
  /** When: dates, spans, conditions. Never empty. */
  readonly when: readonly string[];
  /** When to call and what to do if it was missed. */
  readonly call: readonly string[];
}

/** Tasks by who does them. */
export interface Tasks {
  /** Every task but what the list of things inside says already. */
  readonly all: readonly TaskItem[];
  readonly referrer: readonly TaskItem[];
  readonly ward: readonly TaskItem[];
  readonly patient: readonly TaskItem[];
  /** What those three do not do. */
  readonly others: readonly TaskItem[];
  /** What others do, but for what the list of things inside says already. */
  readonly notReferrer: readonly TaskItem[];
  readonly notWard: readonly TaskItem[];
}

/** One thing inside the patient, in everyday words. */
export interface PatientItem {
  readonly key: string;
  readonly name: string;
  readonly lines: readonly string[];
  readonly alert: boolean;
}

/** What a patient is told, in everyday words. */
export interface PatientView {
  readonly notices: readonly string[];
  readonly done: readonly string[];
  readonly inside: readonly PatientItem[];
  /** What is said where nothing is listed; empty where something is. */
  readonly insideNone: string;
  /** What was searched for and not found. */
  readonly missing: readonly PatientItem[];
  readonly tasks: readonly string[];
  readonly advice: readonly string[];
  readonly next: readonly string[];
  readonly know: readonly string[];
  readonly help: readonly string[];
  readonly call: string;
  readonly caution: readonly string[];
}

/** All that a report says, in the words of one language. Every audience is a selection of it. */
export interface ReportView {
  readonly language: Language;
  readonly title: string;
  readonly date: string;
  readonly caseId: string;
  readonly place: string;
  readonly identity: Identity;
  readonly status: Status;
  /** Facts that the short reports share with the sections, by topic. */
  readonly facts: {
    readonly name: Fact;
    readonly birthDate: Fact;
    readonly sex: Fact;
    readonly identifiers: Fact;
    readonly caseId: Fact;
    readonly status: Fact;
    readonly signature: Fact;
    readonly procedure: Fact;
    readonly side: Fact;
    readonly date: Fact;
    readonly indication: Fact;
    readonly caseStatus: Fact;
    readonly outcome: Fact;
    /** What was done, a sentence a step. */
    readonly course: Fact;
    readonly conclusion: Fact;
    readonly complications: Fact;
    readonly allergies: Fact;
    readonly anticoagulants: Fact;
    readonly access: Fact;
    readonly condition: Fact;
    readonly disposition: Fact;
    readonly bloodLoss: Fact;
    readonly contrast: Fact;
    readonly radiation: Fact;
    readonly specimens: Fact;
    readonly inside: Fact;
    readonly contact: Fact;
    readonly adviceWard: Fact;
    readonly adviceReferrer: Fact;
    readonly advicePatient: Fact;
  };
  readonly inside: readonly InsideItem[];
  /** What is unaccounted for, or cannot be found. */
  readonly whereabouts: readonly InsideItem[];
  readonly ending: Ending;
  readonly tasks: Tasks;
  readonly pictures: readonly PictureItem[];
  readonly patient: PatientView;
  readonly caution: readonly string[];
  readonly section: Readonly<Record<SectionKey, Section>>;
}
