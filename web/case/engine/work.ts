import { playEvents } from '../../../src/devices/tally/play.js';
import { deltaBetween } from '../../../src/drafts/delta.js';
import { type EditBatch, editsBetween, type Refused } from '../../../src/drafts/edit.js';
import type { Edit } from '../../../src/drafts/edits.js';
import { type Contended, type Merged, mergeEdits, mergeText } from '../../../src/drafts/merge.js';
import { type Finding, findingRowsIn } from '../../../src/findings/finding.js';
import { byHarm } from '../../../src/findings/harm.js';
import type { Language } from '../../../src/findings/languages.js';
import { say } from '../../../src/findings/say.js';
import type { PlacedRow } from '../../../src/pipeline/case-trays.js';
import { checkCase } from '../../../src/pipeline/check.js';
import { openUnfinished, whyUnread } from '../../../src/pipeline/open-unfinished.js';
import type { Tree } from '../../../src/record/read.js';
import { treeIn } from '../../../src/record/tree.js';
import { type Site, unconfiguredSite } from '../../../src/site/site.js';
import { traysOf } from '../../../src/trays/trays.js';
import { compared } from './compared.js';
import { type LineTime, type Proposed, proposedBy } from './lines.js';
import { openProposals, type Remarked } from './proposals.js';
import { saidIn } from './said.js';
import { type ScanGiven, type ScanStep, scanInto } from './scan.js';
import { type SheetNode, sheetsIn } from './sheets.js';
import { type Term, type TermKind, termsIn } from './terms.js';

/** A finding as it is shown: with its words in the language of the page. */
export interface ShownFinding extends Omit<Finding, 'remedy' | 'params'> {
  readonly message: string;
  readonly remedy: string;
}

/** What a text says, as far as it is entered. */
export interface Looked {
  readonly tree: Tree | undefined;
  readonly placed: readonly PlacedRow[];
  /** The events in words, in the order of the record; none where they cannot be read. */
  readonly said: readonly string[];
  /** What kits and other systems propose. */
  readonly proposed: readonly Remarked[];
  /** Why devices or events cannot be read, or what the events cannot have been. */
  readonly findings: readonly ShownFinding[];
  /** What of devices and events could not be read, and is left out of what is shown. */
  readonly unread: readonly ShownFinding[];
}

/** What stands against a case that is to be closed. */
export interface CheckedText {
  /** False where parts cannot be read. */
  readonly whole: boolean;
  /** By harm to the patient, worst first. */
  readonly findings: readonly ShownFinding[];
}

/** Texts of a draft: the one that something was made for, and what became of it. */
export interface Texts {
  readonly base: string;
  readonly now: string;
  /** The edits that led from one to the other, where they are known. */
  readonly since?: readonly Edit[];
}

export interface ShownScan extends Omit<ScanStep, 'findings'> {
  readonly findings: readonly ShownFinding[];
}

export interface Fields {
  readonly sheets: readonly SheetNode[];
  readonly terms: Readonly<Record<TermKind, readonly Term[]>>;
}

export interface EngineSettings {
  /** GET /settings. */
  readonly site: Partial<Site>;
  readonly language: Language;
}

/**
 * The work on a record that the page does by itself, without the network: the same code as in the service. It runs in a
 * thread of its own, so that the page answers while it does.
 */
export function engineOf({ site: given, language }: EngineSettings) {
  const site: Site = { ...unconfiguredSite, ...given };
  const shown = (findings: readonly Finding[]) =>
    JSON.parse(JSON.stringify(byHarm(findings), findingRowsIn(language))) as ShownFinding[];
  return {
    /** @param now milliseconds since 1970 */
    look(text: string, now: number): Looked {
      const tree = treeIn(text);
      const opened = openUnfinished(text, site, new Date(now).toISOString());
      const { record, assessment } = opened;
      const proposed = openProposals(text, tree, language);
      if (!record || !assessment)
        return { tree, proposed, placed: [], said: [], findings: shown(whyUnread(opened)), unread: [] };
      const play = playEvents(record, assessment.devices);
      const placed = traysOf(play).map(({ name, ...rest }) => ({ ...rest, name: say(name, language) }));
      const said = saidIn(opened, language);
      const unread = shown(opened.unread);
      return { tree, proposed, placed, said, findings: shown(play.findings), unread };
    },

    check(text: string, now: number): CheckedText {
      const { record, findings } = checkCase(text, site, undefined, now);
      return { whole: record !== undefined, findings: shown(findings) };
    },

    /** Makes edits, or takes some back, that were made for an earlier text. */
    edit: ({ base, now, since }: Texts, batch: readonly Edit[] | EditBatch): Merged | Contended | Refused =>
      mergeEdits({ base, theirs: now, ...(since && { theirEdits: since }) }, batch),

    /** Takes over a text that was made from an earlier one. */
    merge: ({ base, now }: Texts, mine: string): Merged | Contended | Refused =>
      mergeText({ base, theirs: now }, mine),

    /** What leads from one text to another. */
    between(base: string, text: string): EditBatch | Refused {
      const made = editsBetween(base, text);
      return 'findings' in made ? made : { edits: made.edits, exact: deltaBetween(base, text) };
    },

    /** What a text tells differently from one that was sent before. */
    compare: (before: string, after: string) => compared(before, after, site, language, Date.now()),

    /** One line of a scanner, held against the record and what the catalogue of the site knows of its device. */
    scan(given: ScanGiven): ShownScan {
      const step = scanInto(given, site);
      return { ...step, findings: shown(step.findings) };
    },

    /** What a typed or dictated line would write. */
    line: (text: string, line: string, time: LineTime): readonly Proposed[] =>
      proposedBy(text, line, time, site, language),

    /** The fields of the record, and the names that they suggest. */
    fields: (): Fields => ({ sheets: sheetsIn(language), terms: termsIn(language, site) }),
  };
}

export type Engine = ReturnType<typeof engineOf>;

/** The engine as the page calls it. A call that fails is rejected; the page keeps what it had. */
export type EngineCalls = {
  readonly [Name in keyof Engine]: (
    ...given: Parameters<Engine[Name]>
  ) => Promise<Awaited<ReturnType<Engine[Name]>>>;
};
export type { Edit, EditBatch };
