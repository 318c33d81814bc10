import type { JsonObject } from '../../json/parse.js';
import type { Place } from './place.js';
import { containedOf } from './resolve.js';
import type { Run } from './run.js';
import { readXhtml } from './xhtml.js';

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
  const { tags, hasText, doctype, problem } = readXhtml(div);
  if (doctype) run.report('conformance.narrative-xml', place, { problem: 'it holds a DOCTYPE' });
  if (problem !== undefined) run.report('conformance.narrative-xml', place, { problem });
  const ids = new Set<string>();
  const links = new Set<string>();
  const once = new Set<string>();
  const first = (key: string): boolean => once.size < once.add(key).size;
  let hasImage = false;
  for (const [index, tag] of tags.entries()) {
    const { name, local, uri } = tag;
    if (tag.outermost && (local !== 'div' || uri !== XHTML || index > 0)) {
      const found = `<${name}> in ${uri === '' ? 'no namespace' : uri}`;
      run.report('conformance.narrative-root', place, { found });
    }
    if ((!elements.has(local) || uri !== XHTML) && first(`<${name}`)) {
      run.report('conformance.narrative-element', place, { element: name });
    }
    for (const [attribute, value] of tag.attributes) {
      if (!mayHave(local, attribute) && first(`${name}.${attribute}`)) {
        run.report('conformance.narrative-attribute', place, { attribute, element: name });
      }
      if (attribute === 'id' && ids.has(value) && first(`#${value}`)) {
        run.report('conformance.narrative-id', place, { id: value });
      }
      if (attribute === 'id' || (attribute === 'name' && name === 'a')) ids.add(value);
      const source = attribute === 'src' && name === 'img';
      if (attribute === 'href' || source) links.add(value);
      if (source && value !== '') hasImage = true;
    }
  }
  if (problem !== undefined) return;
  if (!hasText && !hasImage) run.report('conformance.narrative-empty', place, {});
  checkLinks(run, links, ids, place, root);
}

function mayHave(element: string, attribute: string): boolean {
  const plain = attribute.startsWith('xmlns:') ? 'xmlns' : attribute;
  return attributes.has(plain) || ownAttributes.has(`${element}.${plain}`);
}

function checkLinks(
  run: Run,
  links: ReadonlySet<string>,
  ids: ReadonlySet<string>,
  place: Place,
  root: JsonObject,
): void {
  if (links.size === 0) return;
  const contained = new Set(containedOf(root).map(c => String(c['id'])));
  for (const target of links) {
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
