/**
 * Numbers in 0..1 that look random and depend on the text alone, so that a piece looks the same today and
 * tomorrow, on the screen and in print. (FNV-1a for the text, then the mulberry32 mixing steps.)
 */
export function lots(key: string): () => number {
  let state = 0x811c9dc5;
  for (let at = 0; at < key.length; at += 1) state = Math.imul(state ^ key.charCodeAt(at), 0x01000193);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Shape of a break across the core: offsets from its mean, left to right, within -1..1 and 0 on average.
 * A slow swell for how the core snapped, with jags on it.
 */
export function roughness(key: string, points: number): readonly number[] {
  const lot = lots(key);
  const tilt = lot() - 0.5;
  const waves = [1.3, 2.6, 5.1].map((turns) => ({
    turns: turns * (0.8 + 0.4 * lot()),
    phase: 2 * Math.PI * lot(),
  }));
  const raw = Array.from({ length: points }, (_, at) => {
    const share = at / (points - 1);
    const swell = waves.reduce(
      (sum, { turns, phase }, wave) => sum + Math.sin(2 * Math.PI * turns * share + phase) / (wave + 1.6),
      tilt * (share - 0.5),
    );
    return swell + 0.55 * (lot() - 0.5);
  });
  const mean = raw.reduce((sum, one) => sum + one, 0) / points;
  const most = raw.reduce((top, one) => Math.max(top, Math.abs(one - mean)), 1e-9);
  return raw.map((one) => (one - mean) / most);
}
