import type { Param } from '../../src/findings/message.js';
import { say } from '../../src/findings/say.js';

/** What a part of a finding or calculation says in English. */
export const english = (part: Param | undefined) => (part === undefined ? undefined : say(part));
