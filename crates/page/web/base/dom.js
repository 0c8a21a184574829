// Elements without markup: whatever a name holds, it goes in as text.

const SVG = 'http://www.w3.org/2000/svg';

/** An element with attributes, listeners (`onclick`) and children; false and null are left out. */
export function el(tag, attributes = {}, ...children) {
  return filled(document.createElement(tag), attributes, children);
}

/** The same in a drawing. */
export function svg(tag, attributes = {}, ...children) {
  return filled(document.createElementNS(SVG, tag), attributes, children);
}

function filled(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else if (name === 'value') node.value = value;
    else node.setAttribute(name, value === true ? '' : String(value));
  }
  node.append(...children.flat(9).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

export function byId(id) {
  return document.getElementById(id);
}

/** Says something about what was just done, over the plan; an empty text says nothing. */
export function notice(says) {
  byId('notice').replaceChildren(says);
  byId('news').hidden = says === '';
}

/** A drawing made by the engine: it is read as a drawing, never as markup of the page. */
export function drawing(text) {
  const read = new DOMParser().parseFromString(text, 'image/svg+xml');
  const root = read.documentElement;
  if (root.localName !== 'svg') return null;
  for (const odd of root.querySelectorAll('script, foreignObject, a, image, use')) odd.remove();
  return document.importNode(root, true);
}
