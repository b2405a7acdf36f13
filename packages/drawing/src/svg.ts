import { litStops } from './lit.ts';
import type { ColourName, Fill, Picture, Shape, Stroke } from './shape.ts';
import type { Theme } from './theme.ts';

/** Families of the two faces, as CSS writes them. */
export interface Fonts {
  readonly words: string;
  readonly numbers: string;
}

export const plainFonts: Fonts = {
  words: "'Atkinson Hyperlegible Next Variable', 'Atkinson Hyperlegible Next', system-ui, sans-serif",
  numbers: "'Atkinson Hyperlegible Mono', ui-monospace, monospace",
};

export interface SvgOptions {
  readonly fonts?: Fonts;
  /** Style sheet to carry along, such as @font-face rules with the faces inside. */
  readonly css?: string;
}

/** How colours and widths are written, and what comes before the names of patterns. */
interface Pen {
  readonly colour: (name: ColourName) => string;
  readonly width: (millimetres: number) => string;
  readonly fonts: Fonts;
  readonly names: string;
}

/**
 * A picture as a standalone SVG 1.1 document, to its true size in millimetres. The same picture and theme
 * give the same bytes.
 */
export function toSvg(picture: Picture, theme: Theme, options: SvgOptions = {}): string {
  const pen: Pen = {
    colour: (name) => theme.colours[name],
    width: (millimetres) => digits(millimetres * theme.stroke),
    fonts: options.fonts ?? plainFonts,
    names: '',
  };
  const { defs, body } = drawn(picture, pen);
  const [width, height] = [digits(picture.width), digits(picture.height)];
  return `${[
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="title" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title id="title">${escaped(picture.title)}</title>`,
    ...(options.css === undefined ? [] : [`<style>${escaped(options.css)}</style>`]),
    ...defs,
    `<rect width="${width}" height="${height}" fill="${theme.colours.sheet}"/>`,
    body,
    '</svg>',
  ].join('\n')}\n`;
}

/**
 * A picture as a part of an HTML page that has the themes' custom properties: it takes the page's theme, and is as
 * wide as the page lets it.
 *
 * @param says read aloud in place of the picture
 * @param names different for each picture of a page
 */
export function toSvgInPage(picture: Picture, says: string, names: string): string {
  const pen: Pen = {
    colour: (name) => `var(--${name})`,
    width: (millimetres) => `calc(${digits(millimetres)}px*var(--stroke))`,
    fonts: { words: 'var(--words)', numbers: 'var(--numbers)' },
    names: `${names}-`,
  };
  const { defs, body } = drawn(picture, pen);
  return [
    `<svg role="img" aria-label="${escaped(says)}" viewBox="0 0 ${digits(picture.width)} ${digits(picture.height)}">`,
    ...defs,
    body,
    '</svg>',
  ].join('\n');
}

function drawn(picture: Picture, pen: Pen): { readonly defs: readonly string[]; readonly body: string } {
  const defs = new Map<string, string>();
  const paint = (fill: Fill | undefined): string => fillOf(fill, pen, defs);
  const body = picture.shapes.map((shape) => element(shape, pen, paint)).join('\n');
  return { defs: defs.size === 0 ? [] : [`<defs>${[...defs.values()].join('')}</defs>`], body };
}

function element(shape: Shape, pen: Pen, paint: (fill: Fill | undefined) => string): string {
  const thing = shape.thing === undefined ? '' : ` data-thing="${escaped(shape.thing)}"`;
  switch (shape.is) {
    case 'line': {
      const path = `M${shape.points.map(([x, y]) => `${digits(x)} ${digits(y)}`).join('L')}${shape.close ? 'Z' : ''}`;
      return `<path d="${path}" fill="${paint(shape.fill)}"${strokeOf(shape.stroke, pen)}${thing}/>`;
    }
    case 'rect':
      return `<rect x="${digits(shape.x)}" y="${digits(shape.y)}" width="${digits(shape.w)}" height="${digits(shape.h)}" fill="${paint(shape.fill)}"${strokeOf(shape.stroke, pen)}${thing}/>`;
    case 'circle':
      return `<circle cx="${digits(shape.x)}" cy="${digits(shape.y)}" r="${digits(shape.r)}" fill="${paint(shape.fill)}"${strokeOf(shape.stroke, pen)}${thing}/>`;
    case 'dots': {
      const path = shape.dots
        .map(([x, y, r]) => {
          const across = digits(2 * r);
          return `M${digits(x - r)} ${digits(y)}a${digits(r)} ${digits(r)} 0 1 0 ${across} 0a${digits(r)} ${digits(r)} 0 1 0 -${across} 0z`;
        })
        .join('');
      return `<path d="${path}" fill="${paint(shape.fill)}"${thing}/>`;
    }
    case 'text': {
      const weight = shape.weight === 700 ? ' font-weight="700"' : '';
      return `<text x="${digits(shape.x)}" y="${digits(shape.y)}" font-size="${digits(shape.size)}" font-family="${escaped(pen.fonts[shape.face])}"${weight} text-anchor="${shape.anchor}" fill="${pen.colour(shape.colour)}"${thing}>${escaped(shape.text)}</text>`;
    }
  }
}

function strokeOf(stroke: Stroke | undefined, pen: Pen): string {
  if (stroke === undefined) return '';
  const dash =
    stroke.dash === undefined
      ? ''
      : ` stroke-dasharray="${stroke.dash.map((part) => digits(part)).join(' ')}"`;
  return ` stroke="${pen.colour(stroke.colour)}" stroke-width="${pen.width(stroke.width)}" stroke-linejoin="round"${dash}`;
}

function fillOf(fill: Fill | undefined, pen: Pen, defs: Map<string, string>): string {
  if (fill === undefined) return 'none';
  if (typeof fill === 'string') return pen.colour(fill);
  if ('cylinder' in fill) {
    const { x0, x1 } = fill.cylinder;
    const id = `${pen.names}lit-${digits(x0)}-${digits(x1)}`.replaceAll('.', '_');
    const stops = litStops
      .map(([share, colour]) => `<stop offset="${share}" stop-color="${pen.colour(colour)}"/>`)
      .join('');
    defs.set(
      id,
      `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x1="${digits(x0)}" y1="0" x2="${digits(x1)}" y2="0">${stops}</linearGradient>`,
    );
    return `url(#${id})`;
  }
  const id = `${pen.names}hatch-${fill.hatch}-${digits(fill.step)}`.replaceAll('.', '_');
  const step = digits(fill.step);
  defs.set(
    id,
    `<pattern id="${id}" patternUnits="userSpaceOnUse" width="${step}" height="${step}" patternTransform="rotate(45)"><path d="M${digits(fill.step / 2)} 0V${step}" stroke="${pen.colour(fill.hatch)}" stroke-width="${pen.width(hatchWidth)}"/></pattern>`,
  );
  return `url(#${id})`;
}

/** Millimetres of one line of a hatching. */
export const hatchWidth = 0.22;

/** A micrometre is finer than any printer: three decimals, no exponent, no trailing noughts, no minus nought. */
function digits(value: number): string {
  if (!Number.isFinite(value))
    throw new Error(`A shape has the coordinate ${value}; give it a finite number of millimetres.`);
  const text = value.toFixed(3).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}

/** Text and attribute values for XML 1.0; characters that XML can't hold become U+FFFD. */
function escaped(text: string): string {
  return (
    text
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be kept out
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
  );
}
