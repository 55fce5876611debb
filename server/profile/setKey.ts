import {
  applyEdits,
  createScanner,
  type FormattingOptions,
  findNodeAtLocation,
  type JSONPath,
  modify,
  type Node,
  parseTree,
} from 'jsonc-parser';

/**
 * The text of a JSON object with one key set, comments and layout kept: a comment behind the last value of a group stays
 * behind it when a key joins the group, and a key that is taken out leaves its comments.
 * @param value undefined: the key is taken out
 */
export function setKey(
  text: string,
  path: JSONPath,
  value: unknown,
  formattingOptions: FormattingOptions,
): string {
  const root = parseTree(text);
  const property = root && findNodeAtLocation(root, path)?.parent;
  if (value === undefined) return property ? withoutKey(text, property) : text;
  const last = root && !property ? lastOfGroup(root, path) : null;
  const comment = last === null ? null : commentBehind(text, endOf(last));
  const bare = comment === null ? text : text.slice(0, comment.from) + text.slice(comment.to);
  const set = applyEdits(bare, modify(bare, path, value, { formattingOptions }));
  return last && comment ? putBehind(pathOf(last), text.slice(comment.from, comment.to), set) : set;
}

/** The last key of the deepest group on the way to the path that is there; null: that group is empty. */
function lastOfGroup(root: Node, path: JSONPath): Node | null {
  for (let length = path.length - 1; length >= 0; length--) {
    const group = findNodeAtLocation(root, path.slice(0, length));
    if (group) return group.children?.at(-1) ?? null;
  }
  return null;
}

function pathOf(property: Node): JSONPath {
  const path: JSONPath = [];
  for (let node: Node | undefined = property; node; node = node.parent)
    if (node.type === 'property') path.unshift(node.children?.[0]?.value);
  return path;
}

/** Comments that begin on the line where a value ends, behind its comma if it has one; null: there are none. */
function commentBehind(text: string, end: number): { readonly from: number; readonly to: number } | null {
  const scanner = createScanner(text, false);
  scanner.setPosition(end);
  let from = end;
  let to: number | null = null;
  for (;;) {
    scanner.scan();
    const here = scanner.getTokenOffset() + scanner.getTokenLength();
    const token = text.slice(scanner.getTokenOffset(), here);
    if (token === ',' && to === null) from = here;
    else if (/^\/[/*]/.test(token)) to = here;
    else if (!/^[ \t]+$/.test(token)) return to === null ? null : { from, to };
  }
}

/** The comment behind the comma that the key at this path has. */
function putBehind(path: JSONPath, comment: string, text: string): string {
  const root = parseTree(text);
  const value = root && findNodeAtLocation(root, path);
  const comma = value ? commaBehind(text, endOf(value)) : null;
  if (comma === null) throw new Error('A key that another one follows has a comma.');
  return text.slice(0, comma + 1) + comment + text.slice(comma + 1);
}

function withoutKey(text: string, property: Node): string {
  const siblings = property.parent?.children ?? [];
  const before = siblings[siblings.indexOf(property) - 1];
  const [from, to] = [property.offset, endOf(property)];
  const own = commaBehind(text, to);
  const prior = own === null && before ? commaBehind(text, endOf(before)) : null;
  const ahead = prior === null ? text.slice(0, from) : text.slice(0, prior) + text.slice(prior + 1, from);
  const behind = own === null ? text.slice(to) : text.slice(to, own) + text.slice(own + 1);
  return joined(ahead, behind);
}

/** Two ends of a text between which something was taken out, without the line where nothing is left of it. */
function joined(ahead: string, behind: string): string {
  const indent = /[^\r\n]*$/.exec(ahead)?.[0] ?? '';
  if (indent.trim() !== '') return ahead.replace(/[ \t]+$/, '') + behind;
  const rest = behind.replace(/^[ \t]+/, '');
  const end = /^(\r\n|\r|\n)/.exec(rest)?.[0];
  return end === undefined
    ? ahead + rest
    : ahead.slice(0, ahead.length - indent.length) + rest.slice(end.length);
}

/** Where the comma of a value that ends here stands; null: it has none. */
function commaBehind(text: string, end: number): number | null {
  const scanner = createScanner(text, true);
  scanner.setPosition(end);
  scanner.scan();
  const at = scanner.getTokenOffset();
  return text[at] === ',' ? at : null;
}

function endOf({ offset, length }: Node): number {
  return offset + length;
}
