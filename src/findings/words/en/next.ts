/** What happens next with an item of the outbox. */
export const next = {
  'next.sending': 'is being sent',
  'next.person': 'needs a person: casetally outbox show {id}',
  'next.behindCase': 'waits behind {before} of the same case: casetally outbox show {before}',
  'next.behindPatient': 'waits behind {before} of the same patient: casetally outbox show {before}',
  'next.behindParked':
    'waits behind {before} of the same case, which needs a person: casetally outbox show {before}',
  'next.paused':
    'waits because {destination} needs a person ({reason}): once that is mended, casetally outbox retry {id}',
  'next.again': 'goes again {time}',
  'next.asked': 'it is not known whether it arrived; {destination} will be asked {time}',
  'next.soon': 'with the next run of the worker or casetally outbox retry',
  'next.at': 'at {time} (in {seconds} s)',
  'next.atAsked': 'at {time} (in {seconds} s, the server asked for time)',
  'next.clock': 'at {time}',
  'next.on': '{time} on {date}',
} as const;
