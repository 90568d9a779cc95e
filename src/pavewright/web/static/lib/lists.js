// @ts-check
/** Lists that the pages share with the program: the server makes them from its own. */

/**
 * @typedef {{key: string, name: string, words: string, rooms: string[], layers: string[], needs: string[],
 *   leans_on: string[]}} Stage
 * @typedef {{key: string, words: string}} Drawing
 * @typedef {{name: string, words: string, reader: string, key: string, needs: string[], leans_on: string[]}} Paper
 * @type {{stages: Stage[], drawings: Drawing[], papers: Paper[]}}
 */
const lists = await (await fetch("/static/lib/lists.json")).json();

export const STAGES = lists.stages;
/** Key of the stage at which a finding is looked at, by its room. @param {{code: string}} finding */
export const stageKeyOf = (finding) =>
  (STAGES.find((one) => one.rooms.includes(finding.code.split(".")[0])) ?? STAGES[0]).key;
/** Whether a finding is about the price alone: a crew may go, a price may not. @param {{code: string}} finding */
export const ofMoney = (finding) => stageKeyOf(finding) === "price";
export const DRAWINGS = lists.drawings;
export const PAPERS = lists.papers;
