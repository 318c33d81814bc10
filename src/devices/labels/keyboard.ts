import { type Message, message } from '../../findings/message.js';

/** A kind of damage done between scanner and screen, and how to undo it. */
interface Damage {
  readonly cause: Message;
  readonly undo: (text: string) => string;
}

/** Characters as the computer showed them, above what the scanner meant, in the same order. */
function mapped(shownAs: string, meant: string): (text: string) => string {
  const table = new Map([...shownAs].map((character, i) => [character, [...meant][i] ?? character]));
  return text => [...text].map(character => table.get(character) ?? character).join('');
}

const swapCase = (text: string) =>
  [...text].map(c => (c === c.toLowerCase() ? c.toUpperCase() : c.toLowerCase())).join('');

/** Keyboard tables are from memory; a proposal stands only if the label then reads without fault. */
export const damages: readonly Damage[] = [
  { cause: message('keyboard.lowerCase'), undo: text => text.toUpperCase() },
  { cause: message('keyboard.capsLock'), undo: swapCase },
  { cause: message('keyboard.shift'), undo: mapped('!@#$%^&*()', '1234567890') },
  {
    cause: message('keyboard.german'),
    undo: mapped('zyZYß´ü+#öä-)=(/&"§?`Ü*Ö;:_°', "yzYZ-=[]\\;'/()*&^@#_+{}:<>?~"),
  },
  {
    cause: message('keyboard.french'),
    undo: mapped(
      '&é"\'(-è_çà)1234567890°qazwQAZWm?;:!./§$^£M,',
      '1234567890-!@#$%^&*()_aqwzAQWZ;M,./<>?][}:m',
    ),
  },
];
