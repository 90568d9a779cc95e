// @ts-check
/** The steps of the walk, in the order in which a man walks round a house. */
import * as shape from "./shape.js";

/** @type {import("../frame.js").Step[]} */
export const STEPS = [shape];
