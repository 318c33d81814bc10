/** Makes an element. Text goes in as text: nothing that came from a record is ever read as markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string>>,
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** The element of the page with this id. */
export function byId<T extends HTMLElement>(id: string, kind: new () => T): T {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`the page has no ${id}`);
  return found;
}

/** A table in a frame of its own that scrolls, so that the page itself never does sideways. */
export function table(
  caption: string,
  heads: readonly string[],
  rows: readonly (readonly (Node | string)[])[],
): HTMLElement {
  const cells = (row: readonly (Node | string)[]) =>
    row.map((cell, index) => (index === 0 ? element('th', { scope: 'row' }, cell) : element('td', {}, cell)));
  return element(
    'div',
    { class: 'wide', role: 'region', tabindex: '0', 'aria-label': caption },
    element(
      'table',
      {},
      element('caption', {}, caption),
      element('thead', {}, element('tr', {}, ...heads.map(head => element('th', { scope: 'col' }, head)))),
      element('tbody', {}, ...rows.map(row => element('tr', {}, ...cells(row)))),
    ),
  );
}

/** Lines below each other in one cell. */
export function lines(texts: readonly string[]): Node {
  const all = document.createDocumentFragment();
  all.append(...texts.map(text => element('div', {}, text)));
  return all;
}
