// @ts-check
/** A curved edge by offsets from its chord: one arc fitted to all of them, or straight from offset to offset. */

/** @typedef {{along_mm: number, offset_mm: number}} Offset  offset to the left of the chord */

const NARROWED = 60,
  MAX_RISE = 1, // in half chords: more than a half circle is no edge
  RATIO = (Math.sqrt(5) - 1) / 2;

/**
 * How far a place stands off an arc of a given rise.
 * @param {number} along from the middle of the chord
 * @param {number} off
 * @param {number} rise
 * @param {number} half
 */
function away(along, off, rise, half) {
  if (Math.abs(rise) < 1e-9 * half) return off;
  const radius = (half * half + rise * rise) / (2 * rise);
  return (Math.hypot(along, off - (rise - radius)) - Math.abs(radius)) * Math.sign(radius);
}

/**
 * The arc from end to end of a chord that fits offsets best, and how far each stands off it, to the left positive.
 * @param {number} chord_mm
 * @param {Offset[]} offsets
 * @returns {{rise_mm: number, radius_mm: number|null, off_mm: number[]}} rise to the left of the chord
 */
export function oneArc(chord_mm, offsets) {
  const half = chord_mm / 2,
    misses = (/** @type {number} */ rise) =>
      offsets.map(({ along_mm, offset_mm }) => away(along_mm - half, offset_mm, rise, half)),
    squares = (/** @type {number} */ rise) => misses(rise).reduce((sum, each) => sum + each * each, 0);
  let [low, high] = [-MAX_RISE * half, MAX_RISE * half];
  for (let step = 0; step < NARROWED; step += 1) {
    const one = high - RATIO * (high - low),
      other = low + RATIO * (high - low);
    if (squares(one) <= squares(other)) high = other;
    else low = one;
  }
  const rise = (low + high) / 2,
    flat = Math.abs(rise) < 1e-6 * half;
  return {
    rise_mm: rise,
    radius_mm: flat ? null : Math.abs((half * half + rise * rise) / (2 * rise)),
    off_mm: misses(rise),
  };
}
