import type { Form, Forms, Gender, LanguageData, NameList } from './words/language.js';

/** Names of the trade in one language, and the forms that they take in its sentences. */
export interface Namer {
  /** The name of a row as it stands alone; undefined where the language has none. */
  bare(list: NameList, row: string): string | undefined;
  /** A text that begins with a name of the language, in a form: `den Führungsdraht 0,018 in`. Others stay as they are. */
  inForm(text: string, form: string): string;
}

interface Noun {
  readonly gender: Gender;
  /** With `~` where an adjective ends. */
  readonly written: string;
}

/** Before these sounds an article may be another. */
const vowel = /^[aeiouyhâàäéèêëîïôöûùüœæ]/i;

export function namer({ names, forms }: LanguageData): Namer {
  const lists = new Map(
    Object.entries(names).map(([list, rows]) => [
      list,
      new Map(Object.entries(rows ?? {}).map(([row, name]) => [row, nounOf(name)])),
    ]),
  );
  const bareOf = (noun: Noun) => formed(noun, forms, 'bare');
  /** Nouns that a sentence may put into a form, by what they are alone. */
  const nouns = new Map(
    ['parts', 'devices'].flatMap(list =>
      [...(lists.get(list)?.values() ?? [])].map(noun => [bareOf(noun), noun] as const),
    ),
  );
  return {
    bare: (list, row) => {
      const noun = lists.get(list)?.get(row);
      return noun && bareOf(noun);
    },
    inForm: (text, form) => {
      // The longest name that it begins with: what follows is a size, a number or what it belongs to.
      const ends = [...text.matchAll(/(?=[ ,])|$/g)].map(match => match.index).reverse();
      for (const end of ends) {
        const noun = nouns.get(text.slice(0, end));
        if (noun) return formed(noun, forms, form) + text.slice(end);
      }
      return before(forms[form]?.x, text) + text;
    },
  };
}

function nounOf(name: string): Noun {
  const gendered = /^([mfnp]) (.+)$/.exec(name);
  return { gender: (gendered?.[1] ?? 'n') as Gender, written: gendered?.[2] ?? name };
}

function formed({ gender, written }: Noun, forms: Forms, form: string): string {
  const shape = forms[form]?.[gender];
  const name = written.replaceAll('~', shape?.ending ?? '');
  return before(shape, name) + name;
}

const before = (shape: Form | undefined, name: string): string =>
  shape?.vowel !== undefined && vowel.test(name) ? shape.vowel : (shape?.before ?? '');
