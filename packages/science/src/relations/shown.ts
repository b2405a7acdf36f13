/** Digits after the point that an uncertainty leaves standing: two of its own. */
const decimalsFor = (sd: number): number => Math.max(0, 1 - Math.floor(Math.log10(sd)));

/** A number with as many digits as it can bear: two of its uncertainty, else six. */
export const shownNumber = (value: number, sd: number | null): string => {
  if (!Number.isFinite(value)) return String(value);
  const size = Math.abs(value);
  if (size !== 0 && (size < 1e-4 || size >= 1e7)) {
    const digits =
      sd === null || sd === 0 ? 5 : Math.floor(Math.log10(size)) - Math.floor(Math.log10(sd)) + 1;
    return value.toExponential(Math.min(12, Math.max(1, digits)));
  }
  if (sd === null || sd === 0) return String(Number(value.toPrecision(6)));
  return value.toFixed(Math.min(12, decimalsFor(sd)));
};

/** An uncertainty by two digits. */
export const shownSd = (sd: number): string =>
  sd === 0 || sd < 1e-4 || sd >= 1e7 ? sd.toExponential(1) : sd.toFixed(Math.min(12, decimalsFor(sd)));
