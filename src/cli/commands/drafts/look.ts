import type { DraftSummary } from '../../../drafts/store/drafts.js';
import { CasetallyError } from '../../../findings/errors.js';
import { isCalendarDate } from '../../../record/time.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { mustBeNew, writeOne } from '../../files.js';
import { counted, jsonText, type Output } from '../../output.js';
import { filled, table } from '../../terminal/fill.js';
import { type DraftFlags, draftOf, withDrafts } from './open.js';

/** Most drafts of one list. */
const MAX_LISTED = 500;

const when = (at: number) => new Date(at).toISOString();

const shown = ({ begunAt, changedAt, devices: _, ...rest }: DraftSummary) => ({
  ...rest,
  begun: when(begunAt),
  changed: when(changedAt),
});

/** Lists drafts, of one day or of all. */
export function list(flags: DraftFlags & { readonly on?: string }, output: Output): Promise<ExitCode> {
  const { on } = flags;
  if (on !== undefined && !isCalendarDate(on))
    throw new CasetallyError('usage', `--on ${on} is no day: write YYYY-MM-DD.`);
  return withDrafts(flags, async drafts => {
    const found = await drafts.list({ ...(on !== undefined && { day: on }), limit: MAX_LISTED + 1 });
    const rows = found.slice(0, MAX_LISTED);
    if (flags.json) output.out(jsonText({ drafts: rows.map(shown), more: found.length > MAX_LISTED }));
    else if (rows.length === 0) output.out('No drafts.\n');
    else {
      const cells = rows.map(one => [
        ...[one.id, one.day, one.state, String(one.version), one.case ?? '', one.patient ?? ''],
        ...[one.by, when(one.changedAt)],
      ]);
      output.out(
        table(
          [['draft', 'day', 'state', 'version', 'case', 'patient', 'changed by', 'at'], ...cells],
          output.columns,
        ),
      );
      if (found.length > MAX_LISTED)
        output.out(filled(`There are more than ${MAX_LISTED}: name a day with --on.`, output.columns));
    }
    return exitCodes.ok;
  });
}

/** Shows who changed a draft and when. */
export function show(id: string, flags: DraftFlags, output: Output): Promise<ExitCode> {
  return withDrafts(flags, async drafts => {
    const { text: _, ...draft } = await draftOf(drafts, id);
    const versions = await drafts.versions(id);
    if (flags.json) {
      const rows = versions.map(({ at, digest: _, ...rest }) => ({ ...rest, at: when(at) }));
      output.out(jsonText({ ...shown(draft), versions: rows }));
    } else {
      const head = [draft.case && `case ${draft.case}`, draft.patient, draft.day, draft.state];
      output.out(filled(`${draft.id}: ${head.filter(Boolean).join(', ')}`, output.columns));
      output.out(
        table(
          [
            ['version', 'state', 'by', 'at', 'changed'],
            ...versions.map(one => [
              ...[String(one.version), one.state, one.by, when(one.at)],
              one.why ?? [...new Set(one.edits.map(({ path }) => path))].slice(0, 5).join(', '),
            ]),
          ],
          output.columns,
        ),
      );
    }
    return exitCodes.ok;
  });
}

/** Writes the text of a draft, or of one of its versions. */
export function exportDraft(
  id: string,
  flags: DraftFlags & { readonly ofVersion?: string; readonly out?: string },
  output: Output,
): Promise<ExitCode> {
  return withDrafts(flags, async drafts => {
    const draft = await draftOf(drafts, id);
    const version = flags.ofVersion === undefined ? draft.version : Number(flags.ofVersion);
    const text = version === draft.version ? draft.text : await drafts.textOf(id, version);
    if (text === undefined)
      throw new CasetallyError(
        'usage',
        `the draft has ${counted(draft.version, 'version', 'versions')}, and no version ${flags.ofVersion}.`,
      );
    if (flags.out === undefined) {
      output.out(flags.json ? jsonText({ id, version, state: draft.state, text }) : text);
      return exitCodes.ok;
    }
    await mustBeNew(flags.out);
    await writeOne(flags.out, text, 0o600);
    output.out(
      flags.json
        ? jsonText({ id, version, state: draft.state, out: flags.out })
        : filled(`${flags.out}: version ${version} of the draft, ${draft.state}.`, output.columns),
    );
    return exitCodes.ok;
  });
}
