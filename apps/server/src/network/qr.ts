import qrcode from 'qrcode';

/** A QR code (ISO/IEC 18004) as one outline: squares of size 1 in a square of `size`, quiet zone included. */
export interface QrDrawing {
  readonly size: number;
  /** SVG path data. */
  readonly path: string;
}

/** The quiet zone that the standard asks for, in modules. */
const quiet = 4;

export function drawQr(text: string): QrDrawing {
  const { size, isDark } = modulesOf(text);
  let path = '';
  for (let row = 0; row < size; row += 1)
    for (let from = 0; from < size; from += 1) {
      if (!isDark(row, from)) continue;
      let to = from;
      while (isDark(row, to + 1)) to += 1;
      path += `M${from + quiet} ${row + quiet}h${to - from + 1}v1h-${to - from + 1}z`;
      from = to;
    }
  return { size: size + 2 * quiet, path };
}

/** The same for a terminal: two rows of modules in one line, black on white whatever the terminal's colours are. */
export function printQr(text: string): string {
  const { size, isDark } = modulesOf(text);
  const lines: string[] = [];
  for (let row = -quiet; row < size + quiet; row += 2) {
    let line = '';
    for (let column = -quiet; column < size + quiet; column += 1) {
      const above = isDark(row, column);
      const below = isDark(row + 1, column);
      line += above && below ? '█' : above ? '▀' : below ? '▄' : ' ';
    }
    lines.push(`\u001b[30;107m${line}\u001b[0m`);
  }
  return `${lines.join('\n')}\n`;
}

function modulesOf(text: string) {
  const { modules } = qrcode.create(text, { errorCorrectionLevel: 'M' });
  const { size } = modules;
  const isDark = (row: number, column: number): boolean =>
    row >= 0 && column >= 0 && row < size && column < size && modules.get(row, column) === 1;
  return { size, isDark };
}
