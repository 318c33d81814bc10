import { SaxesParser } from 'saxes';
import type { JsonObject } from '../json/parse.js';
import type { Place } from './place.js';
import { containedOf } from './resolve.js';
import type { Run } from './run.js';

const XHTML = 'http://www.w3.org/1999/xhtml';

/** Elements of the R4 narrative: the list of txt-1 in the structure of Narrative. */
const elements = new Set(
  (
    'a abbr acronym b big blockquote br caption cite code col colgroup dd dfn div dl dt em ' +
    'h1 h2 h3 h4 h5 h6 hr i img li ol p pre q samp small span strong sub sup ' +
    'table tbody td tfoot th thead tr tt ul var'
  ).split(' '),
);

/** Attributes of the same list; those that HTML 4.0 knows on some elements only are kept to these. */
const attributes = new Set(
  (
    'title style class id lang xml:lang dir accesskey tabindex span width align valign char charoff ' +
    'abbr axis headers scope rowspan colspan xmlns cite bgcolor border compact cellhalign cellvalign ' +
    'height hspace vspace type'
  ).split(' '),
);
const ownAttributes = new Set(
  (
    'a.charset a.type a.name a.href a.hreflang a.rel a.rev a.shape a.coords ' +
    'img.src img.alt img.longdesc img.height img.width img.usemap img.ismap img.border ' +
    'table.summary table.border table.frame table.rules table.cellspacing table.cellpadding ' +
    'pre.space td.nowrap th.nowrap ol.type ol.start ul.type li.value hr.size br.clear blockquote.cite q.cite'
  ).split(' '),
);

/** Checks a narrative's XHTML. Source: R4 narrative page with txt-1 and txt-2. */
export function checkNarrative(run: Run, div: string, place: Place, root: JsonObject): void {
  run.rules.add('narrative-element');
  const ids = new Set<string>();
  const links: string[] = [];
  let depth = 0;
  let hasText = false;
  let rootsSeen = 0;
  let failed = false;
  const once = new Set<string>();
  const say = (key: string, report: () => void) => {
    if (once.has(key)) return;
    once.add(key);
    report();
  };
  const parser = new SaxesParser({ xmlns: true, position: false });
  parser.on('error', error => {
    if (failed) return;
    failed = true;
    run.report('conformance.narrative-xml', place, { problem: error.message.replace(/^\d+:\d+: /, '') });
  });
  parser.on('doctype', () => {
    say('doctype', () => run.report('conformance.narrative-xml', place, { problem: 'it holds a DOCTYPE' }));
  });
  parser.on('opentag', tag => {
    if (depth === 0) {
      rootsSeen += 1;
      if (tag.local !== 'div' || tag.uri !== XHTML || rootsSeen > 1) {
        const found = `<${tag.name}> in ${tag.uri === '' ? 'no namespace' : tag.uri}`;
        run.report('conformance.narrative-root', place, { found });
      }
    }
    depth += 1;
    if (!elements.has(tag.local) || tag.uri !== XHTML) {
      say(`<${tag.name}`, () => run.report('conformance.narrative-element', place, { element: tag.name }));
    }
    for (const name in tag.attributes) {
      const value = tag.attributes[name]?.value ?? '';
      const attribute = name.startsWith('xmlns:') ? 'xmlns' : name;
      if (!attributes.has(attribute) && !ownAttributes.has(`${tag.local}.${attribute}`)) {
        say(`${tag.name}.${name}`, () =>
          run.report('conformance.narrative-attribute', place, { attribute: name, element: tag.name }),
        );
      }
      if (name === 'id' || (name === 'name' && tag.name === 'a')) {
        if (name === 'id' && ids.has(value)) {
          say(`#${value}`, () => run.report('conformance.narrative-id', place, { id: value }));
        }
        ids.add(value);
      }
      if (name === 'href' || (name === 'src' && tag.name === 'img')) links.push(value);
      if (name === 'src' && tag.name === 'img' && value !== '') hasText = true;
    }
  });
  parser.on('closetag', () => {
    depth -= 1;
  });
  parser.on('text', text => {
    if (!hasText && /[^ \t\r\n]/.test(text)) hasText = true;
  });
  parser.on('cdata', () => {
    hasText = true;
  });
  parser.write(div).close();
  if (failed) return;
  if (!hasText) run.report('conformance.narrative-empty', place, {});
  if (links.length === 0) return;
  const contained = new Set(containedOf(root).map(c => String(c['id'])));
  for (const target of new Set(links)) {
    const problem = linkProblem(target, ids, contained);
    if (problem !== undefined) {
      const severity = problem === DATA ? 'warning' : 'error';
      run.report('conformance.narrative-link', place, { target, problem }, { severity });
    }
  }
}

const DATA = 'is data other than an image';

function linkProblem(
  target: string,
  ids: ReadonlySet<string>,
  contained: ReadonlySet<string>,
): string | undefined {
  const plain = target.trim();
  if (/^(?:javascript|vbscript|file):/i.test(plain)) return 'is active or local content';
  if (/^data:/i.test(plain) && !/^data:\s*image\//i.test(plain)) return DATA;
  if (plain.startsWith('#') && plain.length > 1) {
    const id = plain.slice(1);
    if (!ids.has(id) && !contained.has(id))
      return 'points to no id of the narrative and no contained resource';
  }
  return undefined;
}
