/** Metres in one of each. The foot is the international one, 0.3048 m exactly. */
const lengthUnits: Readonly<Record<string, number>> = {
  m: 1,
  dm: 0.1,
  cm: 0.01,
  mm: 0.001,
  km: 1000,
  ft: 0.3048,
  in: 0.0254,
  metres: 1,
  meters: 1,
  centimetres: 0.01,
  centimeters: 0.01,
  millimetres: 0.001,
  millimeters: 0.001,
};

/** A column's header: "Depth top [m]" is words "depth top" in metres. */
export interface Heading {
  readonly text: string;
  /** Lower case, blanks between, no unit, no accents. */
  readonly words: string;
  /** As written in the header; null where it names none. */
  readonly unit: string | null;
  /** Metres per unit; null where there is no unit or it is no length. */
  readonly metres: number | null;
}

/** Reads "length_cm", "Depth top [m]", "thickness (mm)", "length, cm", "depthTop". */
export const readHeading = (text: string): Heading => {
  const bracket = /^(.*?)[[(]([^\])]*)[\])]\s*$/.exec(text);
  const name = bracket === null ? text : bracket[1]!;
  const words = name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}#]+/u)
    .filter((word) => word !== '');
  if (bracket !== null) {
    const unit = bracket[2]!.trim();
    return { text, words: words.join(' '), unit, metres: lengthUnits[unit.toLowerCase()] ?? null };
  }
  const last = words.at(-1);
  const isUnit = words.length > 1 && last !== undefined && last !== 'in' && last in lengthUnits;
  if (!isUnit) return { text, words: words.join(' '), unit: null, metres: null };
  return { text, words: words.slice(0, -1).join(' '), unit: last, metres: lengthUnits[last]! };
};
