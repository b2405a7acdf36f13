/**
 * Contrast ratio of two colours, 1 to 21.
 *
 * Source: W3C, Web Content Accessibility Guidelines 2.2 (2023), definitions "contrast ratio" and "relative
 * luminance" (with sRGB's threshold 0.04045 as the current text gives it).
 *
 * @param a sRGB as '#rrggbb'
 * @param b sRGB as '#rrggbb'
 */
export function contrast(a: string, b: string): number {
  const light = luminance(a);
  const other = luminance(b);
  return (Math.max(light, other) + 0.05) / (Math.min(light, other) + 0.05);
}

function luminance(colour: string): number {
  const [, r, g, b] = /^#(..)(..)(..)$/.exec(colour) ?? [];
  if (r === undefined || g === undefined || b === undefined)
    throw new Error(
      `"${colour}" is no colour of the form #rrggbb; write six hexadecimal digits after the #.`,
    );
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

function linear(digits: string): number {
  const share = Number.parseInt(digits, 16) / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}
