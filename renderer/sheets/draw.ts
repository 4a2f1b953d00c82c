/** The tree of a sheet as elements. Built by hand: a few thousand of them must not take seconds. */
import type { SheetChild } from '../../app/shop/tree.ts';

const SVG = 'http://www.w3.org/2000/svg';
const HTML = 'http://www.w3.org/1999/xhtml';

/** @param svg true inside a drawing, whose elements have a namespace of their own. */
export function draw(node: SheetChild, svg = false): Node {
  if (typeof node === 'string') return document.createTextNode(node);
  const isDrawing = svg || node.tag === 'svg';
  const element = document.createElementNS(isDrawing ? SVG : HTML, node.tag);
  for (const [name, value] of Object.entries(node.attrs)) element.setAttribute(name, String(value));
  element.append(...node.children.map((child) => draw(child, isDrawing)));
  return element;
}
