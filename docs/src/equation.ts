import temml from 'temml';

/**
 * An equation as MathML, which browsers set without any script.
 *
 * @param where named where the equation can't be read
 * @throws Error with the equation and the place
 */
export function equation(tex: string, display: boolean, where: string): string {
  try {
    return temml.renderToString(tex, { displayMode: display, throwOnError: true, wrap: 'none' });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Error(`${where}: the equation "${tex}" can't be set: ${why}`);
  }
}
