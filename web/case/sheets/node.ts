import type { VNode } from 'preact';
import type { SheetNode } from '../engine/sheets.js';

export interface NodeProps {
  readonly node: SheetNode;
  readonly path: string;
  /** Without a heading of its own. */
  readonly bare?: boolean;
}

/** Shows a part of the record that lies in another one. */
export type ViewOf = (node: SheetNode, path: string) => VNode;

/** An id for the field at a path: ids have no blanks. */
export const idOf = (path: string): string => `field-${path.replace(/[^\w-]+/g, '-')}`;
