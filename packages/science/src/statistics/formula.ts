import { QuantityError } from '../quantity-error.ts';

/** A formula that was read: its quantities in the order in which they first stand in it. */
export interface Formula {
  readonly names: readonly string[];
  /** @param values in the order of `names` */
  readonly value: (values: readonly number[]) => number;
}

type Part = (values: readonly number[]) => number;

const where = 'formula';

const functions: Readonly<Record<string, (x: number) => number>> = {
  sqrt: Math.sqrt,
  cbrt: Math.cbrt,
  exp: Math.exp,
  ln: Math.log,
  log10: Math.log10,
  sin: Math.sin,
  cos: Math.cos,
  tan: Math.tan,
  asin: Math.asin,
  acos: Math.acos,
  atan: Math.atan,
  sinh: Math.sinh,
  cosh: Math.cosh,
  tanh: Math.tanh,
};

const token =
  /\s*(?:(\d+(?:\.\d*)?(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)|([A-Za-z_][A-Za-z0-9_]*)|([-+*/^()]))/y;

const tokensOf = (text: string): string[] => {
  const out: string[] = [];
  token.lastIndex = 0;
  while (token.lastIndex < text.trimEnd().length) {
    const at = token.lastIndex;
    const found = token.exec(text);
    if (found === null)
      throw new QuantityError(
        where,
        `"${text.slice(at).trim()}" can't be read`,
        'numbers, names, + - * / ^ ( )',
      );
    out.push(found[0].trim());
  }
  return out;
};

/**
 * Reads a formula: numbers, names of quantities, + - * / ^, brackets, sqrt cbrt exp ln log10 and the functions of angles (in
 * radians), pi. Powers bind before signs, and from the right: -a^b^c is -(a^(b^c)). Nothing of it is ever run as a program.
 *
 * @throws QuantityError with the place where it can't be read
 */
export const readFormula = (text: string): Formula => {
  if (text.length > 2000) throw new QuantityError(where, `it has ${text.length} characters`, '2000 or fewer');
  const tokens = tokensOf(text);
  const names: string[] = [];
  let at = 0;
  let depth = 0;
  const peek = () => tokens[at] ?? '';
  const take = (): string => {
    at += 1;
    return tokens[at - 1] ?? '';
  };
  const expect = (wanted: string) => {
    const found = take();
    if (found !== wanted)
      throw new QuantityError(where, `"${found || 'the end'}" stands where ${wanted} should`, wanted);
  };
  const sum = (): Part => {
    let left = product();
    while (peek() === '+' || peek() === '-') {
      const [before, isMinus] = [left, take() === '-'];
      const right = product();
      left = isMinus ? (v) => before(v) - right(v) : (v) => before(v) + right(v);
    }
    return left;
  };
  const product = (): Part => {
    let left = signed();
    while (peek() === '*' || peek() === '/') {
      const [before, isOver] = [left, take() === '/'];
      const right = signed();
      left = isOver ? (v) => before(v) / right(v) : (v) => before(v) * right(v);
    }
    return left;
  };
  const signed = (): Part => {
    depth += 1;
    if (depth > 200) throw new QuantityError(where, 'it is nested too deep', '200 brackets or signs');
    const made =
      peek() === '-' || peek() === '+' ? (take() === '-' ? negative(signed()) : signed()) : power();
    depth -= 1;
    return made;
  };
  const power = (): Part => {
    const base = single();
    if (peek() !== '^') return base;
    take();
    const exponent = signed();
    return (v) => base(v) ** exponent(v);
  };
  const single = (): Part => {
    const found = take();
    if (found === '(') {
      const inner = sum();
      expect(')');
      return inner;
    }
    if (/^[\d.]/.test(found)) {
      const number = Number(found);
      return () => number;
    }
    if (!/^[A-Za-z_]/.test(found))
      throw new QuantityError(
        where,
        `"${found || 'the end'}" stands where a number or a name should`,
        'a number or a name',
      );
    if (peek() === '(') return called(found);
    if (found === 'pi') return () => Math.PI;
    if (!names.includes(found)) names.push(found);
    const index = names.indexOf(found);
    return (v) => v[index];
  };
  const called = (name: string): Part => {
    const of = Object.hasOwn(functions, name) ? functions[name] : undefined;
    if (of === undefined)
      throw new QuantityError(where, `there is no function ${name}`, Object.keys(functions).join(', '));
    expect('(');
    const inner = sum();
    expect(')');
    return (v) => of(inner(v));
  };
  const value = sum();
  if (at < tokens.length)
    throw new QuantityError(where, `"${peek()}" stands after the end`, 'an operator before it');
  return { names, value };
};

const negative =
  (of: Part): Part =>
  (v) =>
    -of(v);
