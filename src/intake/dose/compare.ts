import { type Finding, finding } from '../../findings/finding.js';
import type { Message } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { unitOfCode, units } from '../../record/units.js';
import { inUnit, powerBetween, sameRounded } from './numbers.js';
import { asQuantity, type CaseFigure, type CaseFigures, type FigureName, figureLabels } from './totals.js';

type Radiation = Exclude<CaseRecord['radiation'], 'none' | undefined>;
type Typed = NonNullable<Radiation['kermaAreaProduct']>;

/**
 * Holds figures of dose reports against those that a record has. A typed figure is the same when it is the other one
 * rounded to the typed digits; one that would be the same in another unit or with its point moved is told apart from
 * one that is simply another.
 */
export function compareDose(figures: CaseFigures, radiation: CaseRecord['radiation']): Finding[] {
  const names = Object.keys(figures) as FigureName[];
  if (radiation === 'none')
    return names.length > 0 ? [finding('dose-report.said-none', 'radiation', {})] : [];
  return names.flatMap(name => {
    const found = figures[name];
    const typed = typedOf(radiation, name);
    const path = `radiation.${name}`;
    if (!found) return [];
    const what = figureLabels[name];
    if (!typed) return [finding('dose-report.not-recorded', path, { what, found: asQuantity(found) })];
    return typed.comparator ? [] : held(path, what, typed, found);
  });
}

function typedOf(radiation: Radiation | undefined, name: FigureName): Typed | undefined {
  if (name !== 'frames') return radiation?.[name];
  const { frames } = radiation ?? {};
  return frames === undefined ? undefined : { value: `${frames}`, unit: '', code: '1' };
}

function held(path: string, what: Message, typed: Typed, found: CaseFigure): Finding[] {
  const exact = inUnit(found, typed.code);
  if (exact !== undefined && sameRounded(typed.value, exact)) return [];
  const dimension = unitOfCode(typed.code)?.dimension;
  const sides = { what, recorded: { quantity: typed }, found: asQuantity(found) };
  const meant = units.find(unit => {
    if (unit.dimension !== dimension || unit.code === typed.code || !unit.factor) return false;
    const other = inUnit(found, unit.code);
    return other !== undefined && significant(typed.value) >= 2 && sameRounded(typed.value, other);
  });
  if (meant) return [finding('dose-report.other-unit', path, { ...sides, unit: meant.display })];
  const power = exact === undefined || typed.code === '1' ? undefined : powerBetween(typed.value, exact);
  if (power !== undefined)
    return [finding('dose-report.factor', path, { ...sides, factor: `${10 ** Math.abs(power)}` })];
  return [finding('dose-report.differs', path, sides)];
}

/** Digits from the first that is not a zero: with one digit alone, another unit agrees too often by chance. */
const significant = (value: string) => value.replace(/^[0.]+|\./g, '').length;
