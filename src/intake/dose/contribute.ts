import { unitOfCode } from '../../record/units.js';
import type { Contribution, GivenValue } from '../contribution.js';
import { aboutOf } from './about.js';
import type { DoseSummary } from './combine.js';
import { systemText } from './report.js';
import type { FigureName } from './totals.js';

/**
 * What dose reports give to a record: its `radiation` in the units of consoles, digits as they stand, and the study. A
 * mean of several scans and the study as one with pictures are proposed only: the reports do not say them.
 *
 * @param readAt ISO 8601 with offset; stands where a report does not say when it was made, with its offset
 */
export function doseContribution({ counted, figures, findings }: DoseSummary, readAt: string): Contribution {
  const names = Object.keys(figures) as FigureName[];
  const values = names.flatMap((name): GivenValue[] => {
    const figure = figures[name];
    if (!figure) return [];
    const said = figure.fromEvents
      ? `sum of ${figure.fromEvents} events`
      : figure.meanOf
        ? `mean of ${figure.meanOf} scans`
        : undefined;
    return [
      {
        path: ['radiation', name],
        value: recordText(figure),
        as: figure.meanOf === undefined ? 'set' : 'propose',
        ...(said !== undefined && { said }),
      },
    ];
  });
  const systems = [...new Set(counted.flatMap(({ report }) => systemText(report) ?? []))].join('; ');
  if (values.length > 0 && systems !== '')
    values.push({ path: ['radiation', 'system'], value: systems, as: 'set' });
  const studies = new Set(counted.flatMap(({ report }) => report.study ?? []));
  for (const study of studies) values.push({ path: ['images'], value: { study }, as: 'propose-entry' });
  const made =
    counted
      .map(({ report }) => report.at ?? '')
      .sort()
      .at(-1) ?? '';
  const about = aboutOf(counted);
  return {
    from: 'dose report',
    at: /T.*[+-]\d\d:\d\d$/.test(made) ? made : readAt,
    ...(counted.length > 0 && { by: counted.map(({ file }) => file).join(', ') }),
    ...(about && { about }),
    values,
    findings,
  };
}

/** `45.231 Gy·cm2`, as people type it; a count alone. */
function recordText({ value, unit }: { readonly value: string; readonly unit: string }): string {
  if (unit === '1') return value;
  return `${value} ${(unitOfCode(unit)?.display ?? unit).replace('²', '2')}`;
}
