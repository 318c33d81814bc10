/** The fixed words of the timeline in English; other languages fill the same keys, with the same places. */
export const timelineWords = {
  title: 'Devices of case {id}',
  inside: 'Still inside at the end: {list}.',
  lost: 'Not accounted for, may be inside: {list}.',
  nothing: 'Nothing is left inside.',
  unused: 'Not used: {list}.',
  end: 'end',
  still: 'still inside, {how}',
  stays: 'meant to stay',
  later: 'to come out later',
  against: 'against intention',
  unaccounted: 'NOT ACCOUNTED FOR',
  removed: 'removed {at}',
  missing: 'removed {at}, a part missing',
  opened: 'opened, not used',
  unopened: 'not opened',
  part: '{part} of {device}',
  exchanged: 'exchanged for {device}',
  inflated: 'inflated',
  inflatedTo: 'inflated to {pressure}',
  deployed: 'deployed',
  detached: 'detached',
  injected: 'injected',
  counted: '{n} {done}',
  cut: '{part} cut',
  broken: '{part} broken',
  gone: '{part} lost',
  out: '{part} out',
  keyInside: 'still inside at the end',
  keyOut: 'was inside, came out',
  keyUnaccounted: 'not accounted for',
  keyAgainst: 'inside against intention',
  keyInflated: 'balloon inflated',
  keyPlaced: 'deployed or detached',
  keyPart: 'a part came out',
  keyBroken: 'cut, broken or lost',
  keyExchanged: 'exchanged',
} as const;

export type TimelineWords = Readonly<Record<keyof typeof timelineWords, string>>;

/** Fills the places of one word; a place without a value leaves no gap. */
export function fill(word: string, values: Readonly<Record<string, string | undefined>>): string {
  return word
    .replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '')
    .replace(/ {2,}/g, ' ')
    .replace(/ (?=[,.;])/g, '')
    .trim();
}
