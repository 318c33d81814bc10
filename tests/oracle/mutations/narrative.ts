import { isObject, type JsonObject } from '../corpus/json.js';
import { type Operator, onResources, onSites } from './operator.js';

const xhtml = 'http://www.w3.org/1999/xhtml';
const hasText = (r: JsonObject) => isObject(r['text']);

/** Replaces the narrative by `<div>` around the given markup. */
const body = (id: string, inner: string) => div(id, `<div xmlns="${xhtml}">${inner}</div>`);
const div = (id: string, whole: string) =>
  onResources('narrative', id, hasText, r => {
    r['text'] = { status: 'generated', div: whole };
  });

export const narrative: Operator[] = [
  body('plain-valid', '<p>Text</p>'),
  body('script', '<script>1</script><p>Text</p>'),
  body('style-element', '<style>p {}</style><p>Text</p>'),
  body('form', '<form><input type="text"/></form>Text'),
  body('iframe', '<iframe src="http://example.org"></iframe>Text'),
  body('object', '<object data="a"></object>Text'),
  body('unknown-element', '<wobble>Text</wobble>'),
  body('html-element', '<html><body>Text</body></html>'),
  body('head-element', '<head><title>Text</title></head>Text'),
  body('link-element', '<link rel="stylesheet" href="a.css"/>Text'),
  body('meta-element', '<meta name="a"/>Text'),
  body('base-element', '<base href="http://example.org"/>Text'),
  body('section-element', '<section>Text</section>'),
  body('button-element', '<button>Text</button>'),
  body('video-element', '<video src="a"></video>Text'),
  body('svg-element', '<svg xmlns="http://www.w3.org/2000/svg"></svg>Text'),
  body('font-element', '<font color="red">Text</font>'),
  body('center-element', '<center>Text</center>'),
  body('on-click', '<p onclick="a()">Text</p>'),
  body('on-load', '<p onload="a()">Text</p>'),
  body('unknown-attribute', '<p wobble="a">Text</p>'),
  body('data-attribute', '<p data-a="a">Text</p>'),
  body('style-attribute-valid', '<p style="color: red">Text</p>'),
  body('class-attribute-valid', '<p class="a">Text</p>'),
  body('title-attribute-valid', '<p title="a">Text</p>'),
  body('lang-attribute-valid', '<p lang="en" xml:lang="en">Text</p>'),
  body('align-attribute', '<p align="left">Text</p>'),
  body(
    'table-valid',
    '<table border="1"><thead><tr><th>A</th></tr></thead><tbody><tr><td colspan="2" rowspan="1">B</td></tr></tbody></table>',
  ),
  body(
    'table-attributes-valid',
    '<table width="100" cellpadding="1" cellspacing="1" summary="a" frame="box" rules="all"><tr><td align="left" valign="top" nowrap="nowrap" headers="a" scope="row" abbr="a" axis="a">B</td></tr></table>',
  ),
  body('table-cell-width', '<table><tr><td width="10" height="10" bgcolor="red">B</td></tr></table>'),
  body('list-valid', '<ul><li>A</li></ul><ol><li>B</li></ol><dl><dt>A</dt><dd>B</dd></dl>'),
  body('list-start', '<ol start="2"><li>A</li></ol>'),
  body('list-value', '<ol><li value="2">A</li></ol>'),
  body('deleted-text', '<del>A</del>B'),
  body('inserted-text', '<ins>A</ins>'),
  body('underlined', '<u>A</u>'),
  body(
    'inline-valid',
    '<b>a</b><i>b</i><em>c</em><strong>d</strong><sub>e</sub><sup>f</sup><tt>g</tt><code>h</code><q>i</q><small>j</small><big>k</big><br/><hr/>',
  ),
  body(
    'more-inline-valid',
    '<abbr>a</abbr><acronym>b</acronym><address>c</address><blockquote><p>d</p></blockquote><cite>e</cite><dfn>f</dfn><kbd>g</kbd><samp>h</samp><var>i</var><pre>j</pre><u>m</u><s>n</s><strike>o</strike>',
  ),
  body('link-valid', '<a href="http://example.org" name="a" rel="a" rev="a">Text</a>'),
  body('link-javascript', '<a href="javascript:a()">Text</a>'),
  body('link-fragment', '<a href="#nowhere">Text</a>'),
  body('link-fragment-in-place', '<p id="here">A</p><a href="#here">Text</a>'),
  body('link-data', '<a href="data:text/html,a">Text</a>'),
  body('link-relative', '<a href="Patient/1">Text</a>'),
  body('link-target-attribute', '<a href="http://example.org" target="_blank">Text</a>'),
  body('image-data-valid', '<img src="data:image/png;base64,AAAA" alt="a"/>'),
  body('image-fragment-nowhere', '<img src="#nowhere" alt="a"/>Text'),
  body('image-remote', '<img src="http://example.org/a.png" alt="a"/>Text'),
  body('image-no-source', '<img alt="a"/>Text'),
  body('image-no-alt', '<img src="data:image/png;base64,AAAA"/>Text'),
  body('image-only-alt-valid', '<img src="http://example.org/a.png" alt="picture"/>'),
  body('image-sizes-valid', '<img src="http://example.org/a.png" alt="a" width="10" height="10"/>'),
  body('same-id-twice', '<p id="a">A</p><p id="a">B</p>'),
  body('id-with-space', '<p id="a b">A</p>'),
  body('idref-nowhere', '<table><tr><td headers="nowhere">A</td></tr></table>'),
  body('anchor-name-twice', '<a name="x">A</a><a name="x">B</a>'),
  body('blank', '   '),
  body('empty', ''),
  body('only-break', '<br/>'),
  body('only-empty-paragraph', '<p> </p>'),
  body('only-no-break-space', '&#160;'),
  body('unclosed', '<p>Text'),
  body('crossed', '<b><i>Text</b></i>'),
  body('upper-case', '<P>Text</P>'),
  body('attribute-without-quotes', '<p class=a>Text</p>'),
  body('attribute-twice', '<p class="a" class="b">Text</p>'),
  body('bare-ampersand', 'A & B'),
  body('named-entity', 'A&nbsp;B &eacute; &copy;'),
  body('unknown-entity', 'A&wobble;B'),
  body('xml-entities-valid', 'A &lt; B &gt; C &amp; D &quot; &apos; &#233; &#xE9;'),
  body('bad-character-reference', 'A &#0; B'),
  body('comment-valid', '<!-- note -->Text'),
  body('cdata', '<![CDATA[Text]]>'),
  body('processing-instruction', '<?a b?>Text'),
  body('foreign-namespace', '<p xmlns="http://example.org">Text</p>'),
  body('prefixed-element', '<x:p xmlns:x="http://www.w3.org/1999/xhtml">Text</x:p>'),
  body('unbound-prefix', '<x:p>Text</x:p>'),
  body('nested-div-valid', '<div><span>Text</span></div>'),
  body(
    'col-valid',
    '<table><caption>A</caption><colgroup><col width="1"/></colgroup><tr><td>B</td></tr></table>',
  ),
  body(
    'map-and-area',
    '<map name="m"><area shape="rect" coords="0,0,1,1" href="http://example.org" alt="a"/></map>Text',
  ),
  div('no-namespace', '<div>Text</div>'),
  div('wrong-namespace', '<div xmlns="http://example.org">Text</div>'),
  div('not-a-div', `<p xmlns="${xhtml}">Text</p>`),
  div('upper-case-div', `<DIV xmlns="${xhtml}">Text</DIV>`),
  div('plain-text', 'Text'),
  div('two-divs', `<div xmlns="${xhtml}">A</div><div xmlns="${xhtml}">B</div>`),
  div('text-after', `<div xmlns="${xhtml}">A</div>B`),
  div('doctype', `<!DOCTYPE html><div xmlns="${xhtml}">A</div>`),
  div('doctype-entity', `<!DOCTYPE div [<!ENTITY a "b">]><div xmlns="${xhtml}">&a;</div>`),
  div('xml-declaration', `<?xml version="1.0"?><div xmlns="${xhtml}">A</div>`),
  div('leading-space', ` <div xmlns="${xhtml}">A</div>`),
  div('trailing-space', `<div xmlns="${xhtml}">A</div>\n`),
  div(
    'div-attributes-valid',
    `<div xmlns="${xhtml}" lang="en" xml:lang="en" class="a" style="color:red" id="a">A</div>`,
  ),
  div('single-quotes-valid', `<div xmlns='${xhtml}'>A</div>`),
  onResources('narrative', 'no-div', hasText, r => {
    r['text'] = { status: 'generated' };
  }),
  onResources('narrative', 'no-status', hasText, r => {
    r['text'] = { div: `<div xmlns="${xhtml}">A</div>` };
  }),
  onResources('narrative', 'status-unknown', hasText, r => {
    r['text'] = { status: 'wobble', div: `<div xmlns="${xhtml}">A</div>` };
  }),
  onResources('narrative', 'div-is-number', hasText, r => {
    r['text'] = { status: 'generated', div: 5 };
  }),
  onResources('narrative', 'div-is-structure', hasText, r => {
    r['text'] = { status: 'generated', div: { p: 'A' } };
  }),
  onResources('narrative', 'text-is-string', hasText, r => {
    r['text'] = 'Text';
  }),
  onSites(
    'narrative',
    'section-narrative-script',
    s => s.element.path === 'Composition.section.text',
    ({ set }) => set({ status: 'generated', div: `<div xmlns="${xhtml}"><script>1</script></div>` }),
  ),
  onSites(
    'narrative',
    'section-narrative-empty',
    s => s.element.path === 'Composition.section.text',
    ({ set }) => set({ status: 'generated', div: `<div xmlns="${xhtml}"> </div>` }),
  ),
];
