/** Resolves with the frame's own document, not the blank one that stands there before it. */
export function frameDocumentOf(frame: HTMLIFrameElement): Promise<Document> {
  return new Promise(resolve => {
    const look = () => {
      const inside = frame.contentDocument;
      if (inside?.readyState === 'complete' && inside.URL !== 'about:blank') resolve(inside);
    };
    frame.addEventListener('load', look);
    look();
  });
}

/** Puts the HTML of a report into the frame's document, where nothing of it runs and nothing is fetched. */
export function fillFrame(frame: HTMLIFrameElement, inside: Document, html: string): void {
  // Parsed under the frame's own policy, which allows the report's style and nothing that runs.
  const Parser = (frame.contentWindow as (Window & typeof globalThis) | null)?.DOMParser ?? DOMParser;
  const parsed = new Parser().parseFromString(html, 'text/html');
  // The report's own policy would stay in force for the next one; the frame's is as strict.
  for (const meta of parsed.querySelectorAll('meta[http-equiv]')) meta.remove();
  inside.replaceChild(inside.adoptNode(parsed.documentElement), inside.documentElement);
}
