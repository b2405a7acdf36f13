/** A length as a crew says it: centimetres below a metre, metres above; millimetres where there are any. */
export function sayLength(metres: number): string {
  if (Math.abs(metres) >= 1) return `${metres.toFixed(2)} m`;
  return `${Number((metres * 100).toFixed(1))} cm`;
}

/** A depth, always to the centimetre. */
export function sayDepth(metres: number): string {
  return `${metres.toFixed(2)} m`;
}
