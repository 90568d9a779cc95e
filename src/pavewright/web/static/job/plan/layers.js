// @ts-check
/**
 * Layers of the plan: what each draws from the job and its plan. Signs, dashes and words carry the meaning; colour only
 * helps.
 */
import { ON_SITE } from "./layers-site.js";
import { WORKS } from "./layers-works.js";

/** @type {Record<string, import("./signs.js").Layer>} */
export const LAYERS = { ...WORKS, ...ON_SITE };
