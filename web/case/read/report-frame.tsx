import { useEffect, useRef } from 'preact/hooks';
import { fillFrame, frameDocumentOf } from '../../report-frame.js';

/** A report in a frame of its own, in which nothing runs and nothing is fetched. */
export function ReportFrame({ html, title }: { readonly html: string; readonly title: string }) {
  const frame = useRef<HTMLIFrameElement>(null);
  const found = useRef<Promise<Document>>();
  useEffect(() => {
    let over = false;
    const { current } = frame;
    if (!current) return undefined;
    found.current ??= frameDocumentOf(current);
    void found.current.then(inside => over || fillFrame(current, inside, html));
    return () => {
      over = true;
    };
  }, [html]);
  return (
    <iframe ref={frame} class="report" src="review/frame.html" sandbox="allow-same-origin" title={title} />
  );
}
