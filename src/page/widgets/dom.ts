/** What an element may be given: attributes by name, listeners under `on`. `true` sets an empty attribute. */
export interface Attributes {
  readonly [name: string]: string | number | boolean | null | undefined;
}
export type Child = Node | string | null | undefined | false;

/** An HTML element. Strings become text, never markup: names out of a rig are safe here. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  return filled(document.createElement(tag), attributes, children);
}

/** An SVG element, likewise. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  return filled(document.createElementNS("http://www.w3.org/2000/svg", tag), attributes, children);
}

/** An id that no other element of the page has. */
export function newId(word: string): string {
  ids++;
  return `${word}-${ids}`;
}
let ids = 0;

/** Replaces what is in a node. */
export function fill(parent: Element, ...children: readonly Child[]): void {
  parent.replaceChildren(...kept(children));
}

/** Text that is only written when it changes, so that live regions and layout stay quiet. */
export function setText(node: Element, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}

function filled<T extends Element>(node: T, attributes: Attributes, children: readonly Child[]): T {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...kept(children));
  return node;
}

const kept = (children: readonly Child[]): (Node | string)[] =>
  children.filter((child): child is Node | string => child instanceof Node || typeof child === "string");
