import Handlebars from 'handlebars';

/** Partials that a template calls, by name. A name that is worked out may only be that of a node. */
export function partsOf(source: string): { readonly names: readonly string[]; readonly worked: boolean } {
  const names: string[] = [];
  let worked = false;
  const read = (name: hbs.AST.PathExpression | hbs.AST.SubExpression) => {
    if (name.type === 'PathExpression' && 'original' in name) names.push(String(name.original));
    else if (!('path' in name && isNode(name.path))) worked = true;
  };
  class Reader extends Handlebars.Visitor {
    override PartialStatement(partial: hbs.AST.PartialStatement): void {
      read(partial.name);
    }
    override PartialBlockStatement(partial: hbs.AST.PartialBlockStatement): void {
      read(partial.name);
      super.PartialBlockStatement(partial);
    }
  }
  new Reader().accept(Handlebars.parse(source));
  return { names, worked };
}

const isNode = (path: unknown): boolean =>
  typeof path === 'object' && path !== null && 'original' in path && path.original === 'node';
