import type { Json } from './entry.ts';

/** Deepest nesting of arrays and objects in canonical text. */
const DEPTH_LIMIT = 32;

const LONE_SURROGATE = /[\uD800-\uDFFF]/u;

/**
 * Canonical JSON of a plain value (RFC 8785): no white space, properties sorted by UTF-16 code units, numbers
 * and strings as ECMAScript writes them.
 *
 * Refuses, with the place in words, what RFC 8785 or this record cannot hold: NaN and infinities, undefined,
 * functions, class instances, U+0000, lone surrogates, more than 32 levels.
 *
 * @throws TypeError that names the place and the trouble
 */
export function canonical(value: unknown): string {
  return write(value, []);
}

/**
 * Parse JSON text into objects without a prototype, so that a property called "__proto__" or "constructor" is
 * an ordinary one. Refuses the same things as `canonical`.
 *
 * @throws SyntaxError for text that is not JSON; TypeError for what canonical JSON cannot hold
 */
export function parse(text: string): Json {
  return settle(JSON.parse(text), DEPTH_LIMIT, !isPlainlySound(text));
}

/**
 * Parse text that must be in canonical form already.
 *
 * @throws as `parse`; TypeError where the text is not the canonical form of what it says
 */
export function parseCanonical(text: string): Json {
  const value: unknown = JSON.parse(text);
  const settled = settle(value, DEPTH_LIMIT, !isPlainlySound(text));
  // What ECMAScript writes back unchanged is canonical when its names ascend. The engine moves names that look
  // like array indices ("10", "9") to the front, so a text that differs is looked at the slow way.
  if (hasAscendingNames(value) && JSON.stringify(value) === text) return settled;
  if (canonical(settled) !== text) throw new TypeError('The text is not in canonical form (RFC 8785).');
  return settled;
}

/** `path` names where we are, for the message only. */
function write(value: unknown, path: string[]): string {
  if (value === null || value === true || value === false) return String(value);
  if (typeof value === 'string') return JSON.stringify(sound(value, path));
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw trouble(path, `the number ${value} has no place in JSON`);
    return JSON.stringify(value);
  }
  if (typeof value !== 'object') throw trouble(path, `a value of type ${typeof value} has no place in JSON`);
  if (path.length >= DEPTH_LIMIT) throw trouble(path, `nested deeper than ${DEPTH_LIMIT} levels`);
  let text = '';
  if (Array.isArray(value)) {
    for (let index = 0; index < value.length; index += 1) {
      path.push(String(index));
      text += (index === 0 ? '' : ',') + write(value[index], path);
      path.pop();
    }
    return `[${text}]`;
  }
  const prototype = Object.getPrototypeOf(value);
  if (prototype !== null && prototype !== Object.prototype) throw trouble(path, 'not a plain object');
  // Array.prototype.sort without a comparator sorts by UTF-16 code units, as section 3.2.3 asks.
  for (const name of Object.keys(value).sort()) {
    path.push(name);
    const inner = write((value as Record<string, unknown>)[name], path);
    text += `${text === '' ? '' : ','}${JSON.stringify(sound(name, path))}:${inner}`;
    path.pop();
  }
  return `{${text}}`;
}

/**
 * Checks a value fresh from JSON.parse, which is ours alone, and takes the prototype from its objects. In place: a
 * copy would cost as much as the parsing, and a season has hundreds of thousands of them.
 */
function settle(value: unknown, depth: number, isSuspect: boolean): Json {
  if (typeof value === 'string') return isSuspect ? sound(value, []) : value;
  if (typeof value === 'number' && !Number.isFinite(value))
    throw trouble([], 'a number beyond double precision');
  if (value === null || typeof value !== 'object') return value as Json;
  if (depth === 0) throw trouble([], `nested deeper than ${DEPTH_LIMIT} levels`);
  if (Array.isArray(value)) {
    for (const item of value) settle(item, depth - 1, isSuspect);
    return value as readonly Json[];
  }
  // First of all, so that a property called "__proto__" is read like the others.
  Object.setPrototypeOf(value, null);
  for (const name in value) {
    if (isSuspect) sound(name, []);
    settle((value as Record<string, unknown>)[name], depth - 1, isSuspect);
  }
  return value as Json;
}

function hasAscendingNames(value: unknown): boolean {
  if (value === null || typeof value !== 'object') return true;
  if (Array.isArray(value)) return value.every(hasAscendingNames);
  let before: string | null = null;
  for (const name of Object.keys(value)) {
    if (before !== null && name < before) return false;
    before = name;
    if (!hasAscendingNames((value as Record<string, unknown>)[name])) return false;
  }
  return true;
}

/** Whether no string in this JSON text can hold U+0000 or a lone surrogate: no escapes that could make one. */
function isPlainlySound(text: string): boolean {
  return !text.includes('\\u') && !LONE_SURROGATE.test(text);
}

function sound(text: string, path: readonly string[]): string {
  if (text.includes('\0')) throw trouble(path, 'the character U+0000 is not allowed');
  if (LONE_SURROGATE.test(text)) throw trouble(path, 'half a character (a lone surrogate) is not allowed');
  return text;
}

function trouble(path: readonly string[], what: string): TypeError {
  return new TypeError(`Canonical JSON${path.length === 0 ? '' : ` at "${path.join('.')}"`}: ${what}.`);
}
