// @ts-check
/** Levels of the finished paving from what was read. */

/** A bigger staff reading is lower. @param {number} datum_mm @param {number} back_mm read on the datum @param {number} reading_mm read on the paving */
export const laidLevel = (datum_mm, back_mm, reading_mm) => datum_mm + back_mm - reading_mm;

/** @param {number} datum_mm @param {string} way @param {number} by_mm */
export const datumLevel = (datum_mm, way, by_mm) => (way === "lower" ? datum_mm - by_mm : datum_mm + by_mm);
