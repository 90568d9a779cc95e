// @ts-check
/** Small tables of numbers: products, solutions and inverses. Nothing here touches the page. */

/** @typedef {number[][]} Table */

/** The table is flat in some direction: nothing follows from it. */
export class FlatTableError extends Error {}

/** @param {Table} left @param {Table} right @returns {Table} */
export const times = (left, right) =>
  left.map((row) => right[0].map((_, column) => row.reduce((sum, each, at) => sum + each * right[at][column], 0)));

/** @param {Table} table @returns {Table} */
export const turned = (table) => table[0].map((_, column) => table.map((row) => row[column]));

/** @param {Table} left @param {Table} right @param {number} [share] @returns {Table} */
export const plus = (left, right, share = 1) =>
  left.map((row, at) => row.map((each, column) => each + share * right[at][column]));

/** @param {Table} table @param {number} by @returns {Table} */
export const scaled = (table, by) => table.map((row) => row.map((each) => each * by));

/** A square table of ones on its diagonal. @param {number} size @returns {Table} */
export const ones = (size) =>
  Array.from({ length: size }, (_, row) => Array.from({ length: size }, (_, at) => Number(at === row)));

/**
 * What times `left` gives `right`, by elimination with the largest first. @param {Table} left
 * @param {Table} right @returns {Table}
 */
export function solved(left, right) {
  const size = left.length,
    all = left.map((row, at) => [...row, ...right[at]]);
  for (let column = 0; column < size; column += 1) {
    let best = column;
    for (let row = column + 1; row < size; row += 1)
      if (Math.abs(all[row][column]) > Math.abs(all[best][column])) best = row;
    if (!(Math.abs(all[best][column]) > 0)) throw new FlatTableError();
    [all[column], all[best]] = [all[best], all[column]];
    for (let row = 0; row < size; row += 1) {
      if (row === column) continue;
      const share = all[row][column] / all[column][column];
      for (let at = column; at < all[row].length; at += 1) all[row][at] -= share * all[column][at];
    }
  }
  return all.map((row, at) => row.slice(size).map((each) => each / row[at]));
}

/** @param {Table} table @returns {Table} */
export const inverse = (table) => solved(table, ones(table.length));
