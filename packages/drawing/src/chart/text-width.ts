/**
 * How wide a line of words will be, in its type's height, a little on the wide side: no font is at hand where shapes
 * are made.
 */
export const textWidth = (text: string, size: number): number =>
  [...text].reduce((sum, letter) => sum + (/[ilj.,:;'|()[\] 1fItr]/.test(letter) ? 0.34 : 0.56), 0) * size;

/** Words over lines of at most this width; a word that is wider has a line of its own. */
export function wrapped(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
