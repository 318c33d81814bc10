import { isReviewed, type Language, languageData, languages, textsOf } from '../../findings/languages.js';
import { isWordKey, lexicon } from '../../findings/say.js';

/** Words that scripts say; those of the case page go to it alone. */
const SCRIPT = /^screen\.|^terminal\.(?:errors|warnings|notes)\./;
const CASE_PAGE = /src="case\//;

/**
 * HTML of the page with its `{{places}}` filled: keys of the catalogue, and what depends on the language.
 *
 * @param own the language of the site, in which a case is sent
 */
export function inWords(html: string, language: Language, own: Language): string {
  const { say } = lexicon(language);
  const texts = textsOf(language);
  const ofCase = CASE_PAGE.test(html);
  const words = Object.fromEntries(
    Object.entries(texts).filter(([key]) => SCRIPT.test(key) || (ofCase && key.startsWith('case.'))),
  );
  const note = (shown: boolean, key: 'review.unreviewed' | 'review.other-language') => {
    const names = { shown: languageData(language).name, sent: languageData(own).name };
    return shown ? `<p class="hint">${escaped(say(key, names))}</p>` : '';
  };
  const special: Readonly<Record<string, string>> = {
    lang: language,
    words: escaped(JSON.stringify(words)),
    unreviewed: note(!isReviewed(language), 'review.unreviewed'),
    'other-language': note(language !== own, 'review.other-language'),
    'language-names': escaped(
      JSON.stringify(Object.fromEntries(languages.map(one => [one, languageData(one).name]))),
    ),
    languages: languages.map(one => linkTo(one, one === language)).join(''),
  };
  return html
    .replace('lang="en-GB"', `lang="${language}"`)
    .replace(/\{\{([\w.-]+)\}\}/g, (place, key: string) =>
      Object.hasOwn(special, key) ? (special[key] ?? '') : isWordKey(key) ? escaped(say(key)) : place,
    );
}

/** The page in another language; its address is relative, as all addresses of the page. */
const linkTo = (language: Language, here: boolean) =>
  `<li><a href="review?language=${language}" lang="${language}" hreflang="${language}"${here ? ' aria-current="page"' : ''}>${escaped(languageData(language).name)}</a></li>`;

export const escaped = (text: string) =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
