import { type Base, falseAlarms, foundIn, isCaught, unaccepted } from './bank.js';

/** One thing tried: a planted mistake, a harmless variant, or a case as it stands. */
export interface Trial {
  readonly base: string;
  readonly apart: boolean;
  readonly kind: 'mistake' | 'harmless';
  readonly class: string;
  readonly say: string;
  /** The mistake was caught, or the harmless variant stayed silent. */
  readonly right: boolean;
  /** What was expected, or the false alarms. */
  readonly detail: string;
  /** False for a harmless variant that is no longer a whole record. */
  readonly whole: boolean;
}

/** Tries everything of one case. */
export function tried(base: Base): readonly Trial[] {
  const before = foundIn(base.text);
  const shared = { base: base.name, apart: base.apart };
  const harmless = (of: string, say: string, alarms: readonly string[], whole: boolean): Trial => ({
    ...shared,
    kind: 'harmless',
    class: of,
    say,
    right: alarms.length === 0,
    detail: alarms.join(' '),
    whole,
  });
  return [
    harmless('as it stands', 'the case without any edit', unaccepted(base, before), true),
    ...base.variants.map(variant => {
      const { codes, whole } = falseAlarms(base, variant, before);
      return harmless(variant.class, variant.say, codes, whole);
    }),
    ...base.mistakes.map(
      (mistake): Trial => ({
        ...shared,
        kind: 'mistake',
        class: mistake.class,
        say: mistake.say,
        right: isCaught(base, mistake, before),
        detail: mistake.expect,
        whole: true,
      }),
    ),
  ];
}

/** Part of the mistakes that were caught, and part of the harmless ones that gave an alarm; 0 to 1. */
export function rates(trials: readonly Trial[]): { readonly caught: number; readonly falseAlarm: number } {
  const part = (kind: Trial['kind'], right: boolean) => {
    const all = trials.filter(trial => trial.kind === kind);
    return all.length === 0 ? 0 : all.filter(trial => trial.right === right).length / all.length;
  };
  return { caught: part('mistake', true), falseAlarm: part('harmless', false) };
}
