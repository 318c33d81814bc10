/** Rendering held against Handlebars alone with the same templates, helpers and documents. */
import Handlebars from 'handlebars';
import type * as Prepare from '../src/pipeline/prepare.js';
import type * as ToolsModule from '../src/pipeline/tools.js';
import type * as Load from '../src/report/render/load.js';
import type * as Markup from '../src/report/render/markup.js';
import type * as Render from '../src/report/render/render.js';
import type { Templates } from '../src/report/render/templates.js';
import type { ReportDocument } from '../src/report/view/nodes.js';
import { builtIn } from './measure.js';

interface Rendering {
  /** The page and the narratives of each document, as a case has them. */
  readonly own: () => unknown;
  /** The same templates with the same contexts, and nothing of what is written looked at. */
  readonly bare: () => unknown;
}

/** @param work prepares cases with the tools that it is given, their pages rendered */
export async function renderings(
  dist: string,
  tools: Prepare.Tools,
  work: (tools: Prepare.Tools) => unknown,
): Promise<Rendering> {
  const built = builtIn(dist);
  const { loadSources } = await built<typeof Load>('report/render/load.js');
  const { markupHelpers } = await built<typeof Markup>('report/render/markup.js');
  const { renderNarrative, renderReport } = await built<typeof Render>('report/render/render.js');
  const { shippedTemplates } = await built<typeof ToolsModule>('pipeline/tools.js');

  const calls: { readonly name: string; readonly context: object }[] = [];
  const watched: Templates = {
    ...tools.templates,
    render: (name, context) => {
      calls.push({ name, context });
      return tools.templates.render(name, context);
    },
  };
  work({ ...tools, templates: watched });
  const documents = calls
    .filter(({ name }) => name === 'page')
    .map(({ context }) => context as ReportDocument);
  const ownBy = (templates: Templates) =>
    documents.map(document => [
      renderReport(document, templates, 'html'),
      renderNarrative(document, templates),
    ]);
  calls.length = 0;
  ownBy(watched);
  const asked = [...calls];

  const bare = Handlebars.create();
  for (const [name, helper] of Object.entries(markupHelpers)) bare.registerHelper(name, helper);
  const compiled = new Map<string, Handlebars.TemplateDelegate>();
  for (const [name, source] of loadSources(shippedTemplates)) {
    const template = bare.compile(source, { preventIndent: true });
    bare.registerPartial(name, template);
    compiled.set(name, template);
  }
  return {
    own: () => ownBy(tools.templates),
    bare: () => asked.map(({ name, context }) => compiled.get(name)?.(context)),
  };
}
